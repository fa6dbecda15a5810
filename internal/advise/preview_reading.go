package advise

import (
	"fmt"
	"math"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/trend"
)

// Preview says what a reading would mean, before it is recorded: one line, and
// the field that it should be asked for first, "" where nothing is to be asked.
func (x *Snapshot) Preview(r *bath.Reading) (say, ask string) {
	switch {
	case !x.Open:
		return "No fill is open: log the fill first.", ""
	case r.Baseline && r.Again == nil:
		return x.previewFirst(r), askAgain
	case r.Baseline:
		return x.previewFirst(r), ""
	}
	settled := *r
	x.Settle(&settled)
	j, typed := x.typed(&settled)
	switch d := typed.Doubt; {
	case d.Kind == DoubtRose:
		return "Went " + d.Why + ". Why?", askRose
	case d.Kind == DoubtMeter:
		return "Kept, not trusted: " + d.Why + ".", ""
	case d.Kind == DoubtStrip:
		return "Kept for the trend: a strip decides nothing.", ""
	case j.First == nil && j.Cooled == nil:
		return "No first reading is named yet: this one is kept and judged against nothing. Name the first.", ""
	}
	if say, ask := j.askOdd(typed); ask != "" {
		return say, ask
	}
	if j.Drop == nil {
		at, _ := j.Again()
		return fmt.Sprintf("Cannot be compared: %s. The first was read at %s.", j.Why, x.Sys.Temp(at)), ""
	}
	return x.previewDrop(j.Judgement), ""
}

// What a reading may be asked for.
const (
	askRose  = "rose"
	askAgain = "again"
	askThird = "third"
)

// typed judges a reading as if it were recorded now.
func (x *Snapshot) typed(r *bath.Reading) (*judging, Judged) {
	if r.Meter == "" {
		c := *r
		r, c.Meter = &c, x.State.LastMeter(x.Bath.ID)
	}
	line := bath.Entry{Seq: x.State.Seq + 1, At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: r}
	j := judge(x.State, x.Bath, x.Life.With(line), x.Now)
	for _, t := range j.Readings {
		if t.Is == r {
			return j, t
		}
	}
	return j, Judged{} // not reached: the line is in the life
}

// askOdd asks for a second reading of one that is out of line, and for a third
// where the two do not agree.
func (j *judging) askOdd(r Judged) (say, ask string) {
	if r.Is.Rose != "" || r.Is.Third != nil {
		return "", ""
	}
	v, low, high, ok := j.before(r).expected(r)
	switch {
	case !ok || v == trend.InLine:
		return "", ""
	case r.Is.Again == nil:
		return fmt.Sprintf("Expected about %s to %s, and %s is typed. Rinse the probe, wait 20 s, read again.", low, high, r.Is.PH), askAgain
	case math.Abs(float64(r.Is.PH-*r.Is.Again)) <= agreed+1e-9:
		return "", ""
	}
	return fmt.Sprintf("%s and %s do not agree: rinse, read a third time; the middle one counts.", r.Is.PH, *r.Is.Again), askThird
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
	if ph, first, ok := j.AtFirst(*j.Last); ok && j.Last.Restated {
		say = fmt.Sprintf("Would read %.2f at %s. ", float64(ph), x.Sys.Temp(first.Is.SampleC)) + say
	}
	return say + x.evaporatedSay(*j.Last)
}

// evaporatedSay says how much higher a bath reads for the water it has lost, where
// that matters.
func (x *Snapshot) evaporatedSay(r Judged) string {
	full := x.Bath.Tank.VolumeL
	if full <= 0 || !x.Level.Known {
		return ""
	}
	gone := float64((full - x.Level.VolumeL) / full)
	if _, say, err := chem.Evaporated(family(x.Bath.Tank), r.sample(), gone); err == nil && say != "" {
		return " Note: " + say + "."
	}
	return ""
}

func sayDrop(j Judgement) string {
	first := float64(j.Last.Against.Is.PH)
	if _, hot, ok := j.AtFirst(*j.Last); ok && j.Last.Restated {
		first = float64(hot.Is.PH)
	}
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
