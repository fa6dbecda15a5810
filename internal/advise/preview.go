package advise

import (
	"fmt"
	"math"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Preview says what a reading would mean, before it is recorded: one line,
// and whether the rise in it wants a reason.
func (x *Snapshot) Preview(r *bath.Reading) (say string, askRise bool) {
	if !x.Open {
		return "No fill is open: log the fill first.", false
	}
	if r.Baseline {
		return x.previewFirst(r), false
	}
	j := x.Life.With(bath.Entry{Seq: x.State.Seq + 1, At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: r}).Judge(x.PH.Limit)
	if n := len(j.Doubtful); n > 0 && j.Doubtful[n-1].Is == r {
		return "Went " + j.Doubtful[n-1].Why + ". Why?", true
	}
	switch {
	case j.First == nil && j.Cooled == nil:
		return "No first reading is named yet: this one is kept and judged against nothing. Name the first.", false
	case j.Drop == nil:
		at, _ := j.Again()
		return fmt.Sprintf("Cannot be compared: the first was read at %s. Read again at about that.", x.Sys.Temp(at)), false
	}
	return x.previewDrop(j), false
}

func (x *Snapshot) previewFirst(r *bath.Reading) string {
	switch {
	case r.Cooled:
		return "Kept as the cooled pair of the first reading."
	case r.SampleC < x.Set()-nearSet:
		return fmt.Sprintf("First reading, and %s is cold for one: hot, at about %s, is better.", x.Sys.Temp(r.SampleC), x.Sys.Temp(x.Set()))
	}
	return "First reading: every later one is judged against it."
}

func (x *Snapshot) previewDrop(j bath.Judgement) string {
	first := float64(j.Against.Is.PH)
	switch d := *j.Drop; {
	case math.Abs(d) < 0.005:
		return fmt.Sprintf("The same as the first, %.2f.", first)
	case d < -bath.RiseAsked: // soap was logged, or the form has asked why
		return fmt.Sprintf("Up %.2f from %.2f, the first.", -d, first)
	case d < 0:
		return fmt.Sprintf("Up %.2f from %.2f: within what a meter tells.", -d, first)
	case j.State == bath.PHPast:
		return fmt.Sprintf("Down %.2f from %.2f: over the limit of %.2f. Tell the gear officer.", d, first, j.Limit)
	case j.State == bath.PHAtLimit:
		return fmt.Sprintf("Down %.2f from %.2f: at the limit of %.2f. Rinse, read again, tell the gear officer.", d, first, j.Limit)
	case j.State == bath.PHWatch:
		return fmt.Sprintf("Down %.2f from %.2f: getting close, act at %.2f.", d, first, j.Limit)
	default:
		return fmt.Sprintf("Down %.2f from %.2f: act at %.2f.", d, first, j.Limit)
	}
}

// PreviewBody says what an entry would mean before it is recorded, where
// there is something to say: one line or nothing.
func (x *Snapshot) PreviewBody(b bath.Body) string {
	switch b := b.(type) {
	case *bath.Reading:
		say, _ := x.Preview(b)
		return say
	case *bath.Dose:
		return x.previewDose(b)
	case *bath.Wash:
		if t := x.Bath.Tag; t != nil {
			return "The bath is red-tagged: start nothing. What happened already is kept, outside the rule."
		}
		return x.previewTemp(b.BathC)
	case *bath.Hold:
		return "Every screen says DO NOT USE until a gear officer lifts it."
	case *bath.Fill:
		if m := x.Bath.Tank.Mark; m != "" {
			return "The mark: " + m + "."
		}
	case *bath.Temp:
		return x.previewTemp(b.BathC)
	}
	return ""
}

func (x *Snapshot) previewTemp(c units.Temperature) string {
	if c > x.Bath.Tank.Max()+overBand {
		return "Above the hottest allowed: heater off, gear out."
	}
	return ""
}

func (x *Snapshot) previewDose(d *bath.Dose) string {
	if !x.Open {
		return "No fill is open: log the fill first."
	}
	charge := x.Life.Charge(x.State, x.Bath.Tank)
	if charge <= 0 {
		return x.Amount(d.VolumeL) + "."
	}
	return fmt.Sprintf("%s. A full first dose here is %s.", x.Amount(d.VolumeL), x.Amount(charge))
}
