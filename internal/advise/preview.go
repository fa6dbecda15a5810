package advise

import (
	"fmt"
	"math"

	"bathside/internal/bath"
	"bathside/internal/chem"
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
	if r.Meter == "" {
		c := *r
		r, c.Meter = &c, x.State.LastMeter(x.Bath.ID)
	}
	typed := bath.Entry{Seq: x.State.Seq + 1, At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: r}
	j := Judge(x.State, x.Bath, x.Life.With(typed))
	switch d := j.Latest.Doubt; {
	case j.Latest.Is != r: // dated before another
		return "", false
	case d.Kind == DoubtRose:
		return "Went " + d.Why + ". Why?", true
	case d.Kind == DoubtMeter:
		return "Kept, not trusted: " + d.Why + ".", false
	case d.Kind == DoubtStrip:
		return "Kept for the trend: a strip decides nothing.", false
	case j.First == nil && j.Cooled == nil:
		return "No first reading is named yet: this one is kept and judged against nothing. Name the first.", false
	case j.Drop == nil:
		at, _ := j.Again()
		return fmt.Sprintf("Cannot be compared: %s. The first was read at %s.", j.Why, x.Sys.Temp(at)), false
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

func (x *Snapshot) previewDrop(j Judgement) string {
	say := sayDrop(j)
	if r := j.Last; r.Restated {
		say = fmt.Sprintf("Would read %.2f at %s. ", float64(r.Equivalent()), x.Sys.Temp(r.Against.Is.SampleC)) + say
	}
	return say
}

func sayDrop(j Judgement) string {
	first := float64(j.Last.Against.Is.PH)
	down := fmt.Sprintf("Down %s from %.2f: ", GiveOrTake(*j.Drop, j.U), first)
	switch d := *j.Drop; {
	case math.Abs(d) < 0.005:
		return fmt.Sprintf("The same as the first, %.2f.", first)
	case d < -RiseAsked: // soap was logged, or the form has asked why
		return fmt.Sprintf("Up %s from %.2f, the first.", GiveOrTake(-d, j.U), first)
	case d < 0:
		return fmt.Sprintf("Up %.2f from %.2f: within what a meter tells.", -d, first)
	case j.State == PHPast:
		return down + fmt.Sprintf("over the limit of %.2f. Tell the gear officer.", j.Limit)
	case j.State == PHAtLimit:
		return down + fmt.Sprintf("at the limit of %.2f. Rinse, read again, tell the gear officer.", j.Limit)
	default:
		return down + chem.DropWords(d, j.U, j.Limit) + "."
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
	say := fmt.Sprintf("%s. A full first dose here is %s.", x.Amount(d.VolumeL), x.Amount(charge))
	if x.Soap == nil {
		return say
	}
	if after, err := x.Soap.After(d.VolumeL); err == nil {
		say += fmt.Sprintf(" Then it would likely read %.2f to %.2f at %s.", float64(after.Low), float64(after.High), x.Sys.Temp(x.PH.Last.Is.SampleC))
	}
	return say
}
