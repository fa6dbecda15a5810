package advise

import (
	"fmt"
	"math"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// PHState is how the bath stands against its limit.
type PHState string

// The states of a bath. Missing data is never "ok".
const (
	PHUnknown PHState = "unknown"
	PHOK      PHState = "ok"
	PHWatch   PHState = "watch"
	PHAtLimit PHState = "at-limit"
	PHPast    PHState = "past"
)

// watchBefore is how far before the limit a bath is getting close.
const watchBefore = 0.2

// Judgement is what the readings of a fill say.
type Judgement struct {
	State    PHState
	Why      string   // for an unknown state: what is missing, and what to do
	Readings []Judged // of the fill, by time
	Last     *Judged  // the last that is trusted
	Latest   *Judged  // the last of all that have been
	First    *Judged  // the first reading, hot
	Cooled   *Judged  // its cooled pair
	Limit    float64  // the allowed drop

	// Drop is how far Last came down from the first reading, and U the
	// standard uncertainty of that; nil where it cannot be stated.
	Drop *float64
	U    float64
}

// Judge says what the readings in life, a fill of b, mean once all of them have
// been.
func Judge(s *bath.State, b *bath.Bath, life bath.Life) Judgement {
	return judge(s, b, life, time.Time{}).Judgement
}

// judge doubts readings that are dated ahead of now; of the zero time, none.
func judge(s *bath.State, b *bath.Bath, life bath.Life, now time.Time) *judging {
	j := &judging{
		meters: newMeters(s), times: s.Times(), soap: family(b.Tank), life: life, now: now,
		Judgement: Judgement{State: PHUnknown, Limit: s.Site.DropLimit()},
	}
	j.bases()
	for _, r := range bath.Of[*bath.Reading](life.Entries) {
		j.add(r)
	}
	j.point()
	j.state()
	return j
}

// judging is a Judgement in the making.
type judging struct {
	Judgement
	meters      meters
	times       units.Times
	soap        chem.Family
	life        bath.Life
	now         time.Time
	first, cool *Judged
	own         *chem.Slope // of this bath, from its hot and cooled first reading
}

// steepest is how far a bath's pH may move a kelvin (judgement): the steepest soap
// type moves by 0.029. A pair beyond it was read or typed wrong.
const steepest = 0.05

// bases finds the first reading, and what its cooled pair says of the bath.
func (j *judging) bases() {
	for _, base := range []struct {
		cooled bool
		at     **Judged
	}{{false, &j.first}, {true, &j.cool}} {
		if r, ok := j.life.Baseline(base.cooled); ok {
			b := j.judged(r)
			*base.at = &b
		}
	}
	if j.first != nil && j.cool != nil && j.first.Doubt == (Doubt{}) && j.cool.Doubt == (Doubt{}) {
		if own, err := chem.OwnSlope(j.first.sample(), j.cool.sample()); err == nil && math.Abs(own.PerK) <= steepest {
			j.own = &own
		}
	}
}

// judged is a reading by what its meter is worth.
func (j *judging) judged(r bath.Rec[*bath.Reading]) Judged {
	standing, why := j.meters.standing(r.Is.Meter, r.At)
	out := Judged{Rec: r, Standing: standing}
	switch standing.Trust {
	case chem.Failed:
		out.Doubt = Doubt{DoubtMeter, why}
	case chem.Strip:
		out.Doubt = Doubt{DoubtStrip, "a strip shows the trend only"}
	}
	return out
}

func (j *judging) add(r bath.Rec[*bath.Reading]) {
	out := j.judged(r)
	if !j.now.IsZero() && toCome(r.At, j.now) && !r.Is.Baseline { // a first reading is that whatever its date
		out.Doubt = Doubt{DoubtClock, "dated " + r.At.Format("2 Jan 2006") + ", which is to come: cross it out with the time it was taken"}
		j.Readings = append(j.Readings, out)
		return
	}
	out.compare(j)
	if out.Doubt == (Doubt{}) {
		out.Doubt = j.rise(out)
	}
	if out.Doubt == (Doubt{}) {
		j.odd(&out)
	}
	j.Readings = append(j.Readings, out)
}

// point names the readings that the faces speak of.
func (j *judging) point() {
	for i := range j.Readings {
		r := &j.Readings[i]
		if r.Doubt.Kind == DoubtClock {
			continue
		}
		j.Latest = r
		if r.Doubt == (Doubt{}) {
			j.Last = r
		}
		switch {
		case j.first != nil && r.Seq == j.first.Seq:
			j.First = r
		case j.cool != nil && r.Seq == j.cool.Seq:
			j.Cooled = r
		}
	}
}

func (j *judging) state() {
	switch last := j.Last; {
	case j.First == nil && j.Cooled == nil:
		j.Why = "no first reading: name one"
	case last == nil:
		j.Why = "no reading that can be trusted: read again"
	case last.Drop == nil:
		j.Why = j.cannot(*last)
	case last.U > j.Limit/2:
		j.Why = fmt.Sprintf("too unsure to compare, give or take %.2f: read again at about the first one's temperature, with a checked meter", last.U)
	default:
		j.Drop, j.U = last.Drop, last.U
		j.State = stateOf(*last.Drop, last.U, j.Limit)
	}
}

// cannot says why the last reading is compared with nothing.
func (j *judging) cannot(Judged) string {
	for _, base := range []*Judged{j.First, j.Cooled} {
		if base != nil && base.Doubt != (Doubt{}) {
			return "the first reading cannot be trusted: " + base.Doubt.Why + "; cross it out and name another"
		}
	}
	if j.First == nil {
		return "no first reading: name one"
	}
	return "read outside the temperatures that can be compared: read again"
}

// stateOf is the state for a drop. A bath is past its limit when it can be
// stated that it dropped so far.
func stateOf(drop, u, limit float64) PHState {
	switch sure := math.Round(100*chem.Stated(limit, u)) / 100; {
	case drop >= sure:
		return PHPast
	case drop >= limit:
		return PHAtLimit
	case drop >= round(limit-watchBefore):
		return PHWatch
	}
	return PHOK
}

// round takes away what adding two-decimal numbers leaves behind, and the sign
// of a zero.
func round(x float64) float64 { return math.Round(x*1000)/1000 + 0 }

// Again is the temperature at which to read again so that it can be compared.
func (j Judgement) Again() (units.Temperature, bool) {
	if j.First != nil {
		return j.First.Is.SampleC, true
	}
	if j.Cooled != nil {
		return j.Cooled.Is.SampleC, true
	}
	return 0, false
}

// Doubtful lists the readings that are kept and not trusted, strips aside.
func (j Judgement) Doubtful() []Judged {
	var out []Judged
	for _, r := range j.Readings {
		if r.Doubt != (Doubt{}) && r.Doubt.Kind != DoubtStrip {
			out = append(out, r)
		}
	}
	return out
}
