package advise

import (
	"slices"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Scan reads a value as it is typed at the bath: a number without its unit
// counts in the station's, and a pH needs no point. It is a [bath.Scanner].
func (x *Snapshot) Scan(dst any, text string) error {
	if p, ok := dst.(*units.PH); ok {
		v, err := units.ParsePHKeys(text)
		*p = v
		return err
	}
	return x.Sys.Scan(dst, text)
}

// Question is what a face asks, once, before an entry is kept.
type Question struct {
	Field string // of the entry: the one that answers; "" where nothing is asked
	Say   string // "The pH went up with no soap logged. Why?"
	Else  string // what becomes of the entry without an answer: "keeps it, not trusted"
}

// Asks is what an entry is questioned about before it is kept; the zero
// Question where there is nothing.
func (x *Snapshot) Asks(b bath.Body) Question {
	r, ok := b.(*bath.Reading)
	if !ok {
		return Question{}
	}
	const untrusted = "keeps it, not trusted"
	say, field := x.Preview(r)
	switch {
	case field == askRose:
		return Question{field, "The pH went up with no soap logged. Why?", untrusted}
	case field == askAgain && r.Baseline:
		return Question{field, "A first reading wants a second number within 0.05: rinse, dip again.", "keeps it with one"}
	case field != "":
		return Question{field, say, untrusted}
	}
	return Question{}
}

// DutyFirst is the duty list, those of the platoon before those of none.
func (x *Snapshot) DutyFirst() []bath.Member {
	var own, others []bath.Member
	for _, m := range x.OnDuty {
		if m.Platoon != "" {
			own = append(own, m)
		} else {
			others = append(others, m)
		}
	}
	return append(own, others...)
}

// Roll is everybody who is here to be asked, those on duty first.
func (x *Snapshot) Roll() []bath.Member {
	roll := x.DutyFirst()
	for _, m := range x.State.Members {
		listed := slices.ContainsFunc(roll, func(on bath.Member) bool { return on.Name == m.Name })
		if !m.Left && !listed {
			roll = append(roll, m)
		}
	}
	return roll
}
