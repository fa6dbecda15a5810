package advise

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// How long a check and a calibration stand (rulings of the trade: a dip weekly,
// two buffers monthly).
const (
	checkStands     = 7 * 24 * time.Hour
	calibrateEvery  = 30 // days
	electrodeLasts  = 12 // months, in warm samples (from memory)
	electrodeWarned = 11
)

// MeterCheck is a calibration or a dip with what it says.
type MeterCheck struct {
	bath.Rec[*bath.Calibration]
	chem.Verdict
	on string // the day, as the station shows it
}

// meters are all the checks that the station holds, judged, by time.
type meters []MeterCheck

func newMeters(s *bath.State) meters {
	warm := units.Temperature(0)
	if len(s.Baths) > 0 {
		warm = s.Baths[0].Tank.Set()
	}
	var out meters
	for _, c := range bath.Of[*bath.Calibration](s.Checks) {
		out = append(out, MeterCheck{c, judgeCheck(c.Is, warm), s.Times().Date(c.At)})
	}
	return out
}

// judgeCheck is what a calibration says with the dip after it, or a dip alone,
// where the bath to be read is so warm. An imported line may hold what the door
// refuses: such a check has failed.
func judgeCheck(c *bath.Calibration, warm units.Temperature) chem.Verdict {
	var dips []chem.Check
	if c.Check != nil {
		d, err := c.Check.Chem()
		if err != nil {
			return chem.Verdict{Say: err.Error()}
		}
		dips = append(dips, d)
	}
	switch {
	case c.Full():
		line, err := c.Line()
		if err != nil {
			return chem.Verdict{Say: err.Error()}
		}
		return line.Judge(warm, dips...)
	case len(dips) > 0:
		return chem.Dip(dips[0])
	}
	return chem.Verdict{Say: "nothing was measured"}
}

// of keeps the checks of one meter.
func (m meters) of(meter string) (out meters) {
	for _, c := range m {
		if strings.EqualFold(c.Is.Meter, meter) {
			out = append(out, c)
		}
	}
	return out
}

// standing is what a meter was worth at a time, and why where it was worth
// nothing. A check that failed also casts doubt on what was read since the one
// before it: such readings count as unchecked.
func (m meters) standing(meter string, at time.Time) (s chem.Standing, why string) {
	s = chem.Standing{Meter: cmp.Or(strings.ToLower(meter), "the one meter")}
	if bath.IsStrip(meter) {
		s.Trust = chem.Strip
		return s, ""
	}
	for _, c := range m {
		switch {
		case !strings.EqualFold(c.Is.Meter, meter), c.Grade == chem.Warn && !c.OK: // another's, or a dip that tells nothing
			continue
		case c.At.After(at):
			if !c.OK && s.Trust != chem.Failed {
				s.Trust = chem.Unchecked
			}
			return s, why
		case !c.OK:
			s.Trust, why = chem.Failed, fmt.Sprintf("%s had failed on %s: %s", meterName(c.Is.Meter), c.on, c.Say)
		case c.Is.Full():
			s.Trust, s.Calibration, why = chem.Calibrated, c.Seq, ""
		case s.Trust != chem.Failed:
			s.Trust = chem.Checked
		}
		if s.Trust != chem.Failed && at.Sub(c.At) > checkStands {
			s.Trust = chem.Unchecked
		}
	}
	return s, why
}

// meterName is a meter in a sentence. An imported line may leave it out.
func meterName(meter string) string {
	if meter == "" {
		return "the meter"
	}
	return "meter " + meter
}

// Checks is every calibration and dip that the station holds, with what each
// says, by time.
func (x *Snapshot) Checks() []MeterCheck { return newMeters(x.State) }

// MeterSay says of the meter that a reading without one is taken by how far it
// is to be trusted now: "M1, calibrated 2 Mar". It is "" before there is any.
func (x *Snapshot) MeterSay() string {
	name := x.State.LastMeter(x.Bath.ID)
	if name == "" {
		return ""
	}
	return name + ", " + x.trustSay(name)
}

// trustSay is how far a meter is to be trusted now, and since when.
func (x *Snapshot) trustSay(name string) string {
	all := newMeters(x.State).of(name)
	s, _ := all.standing(name, x.Now)
	last, ok := lastOf(all, func(c MeterCheck) bool {
		if s.Trust == chem.Failed {
			return c.Grade == chem.Fail
		}
		return c.OK
	})
	switch {
	case !ok:
		return "never checked: its readings count as less sure"
	case s.Trust == chem.Unchecked:
		return fmt.Sprintf("last checked %s: less sure until it is dipped again", x.Date(last.At))
	}
	return fmt.Sprintf("%s %s", s.Trust, x.Date(last.At))
}
