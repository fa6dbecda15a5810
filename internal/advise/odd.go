package advise

import (
	"fmt"
	"math"
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/trend"
	"bathside/internal/units"
)

// expected is what the readings before lead to expect of r: the verdict on it,
// and from where to where it would be in line, as pH at the temperature of the
// first reading. It is false where there is nothing to go by.
func (j *judging) expected(r Judged) (v trend.Verdict, low, high units.PH, ok bool) {
	if j.first == nil || r.Drop == nil || r.Is.Baseline || r.Standing.Trust == chem.Strip {
		return "", 0, 0, false
	}
	in := inputOf(j.life, j.Judgement, r.At)
	if len(in.Days) == 0 {
		return "", 0, 0, false
	}
	fit, err := in.Fit()
	if err != nil {
		return "", 0, 0, false
	}
	c, err := fit.Check(readingOf(j.life, loadTimes(j.life), r))
	if err != nil {
		return "", 0, 0, false
	}
	first := float64(j.first.Is.PH)
	return c.Verdict, units.PH(first + c.Low), units.PH(first + c.High), true
}

// quietStep is a step from one reading to the next that no check asks about:
// less than the scatter of a meter would have to be out for it.
const quietStep = 0.15

// odd finds a reading that is far out of line and that nothing confirms. Above
// the line it is doubted, below it it is odd; either way it stays out of the
// trend, and nothing is deleted.
func (j *judging) odd(r *Judged) {
	if r.Is.Rose != "" || j.quiet(*r) || j.confirmed(*r) {
		return
	}
	v, low, high, ok := j.expected(*r)
	r.asked = ok && v != trend.InLine
	if !ok || v != trend.Doubtful {
		return
	}
	why := fmt.Sprintf("%s is out of line: expected about %s to %s", r.Is.PH, low, high)
	if float64(j.first.Is.PH)-*r.Drop > float64(high) {
		r.Doubt = Doubt{DoubtOdd, why}
		return
	}
	r.Odd = why
}

// settledBy reports whether r, read within the day, is the second reading that t
// was asked for: from the wrong one of two to the right one is no rise.
func (t Judged) settledBy(r Judged) bool { return t.Odd != "" || t.asked && r.At.Sub(t.At) <= aDay }

// quiet reports whether r is so near to the last trusted reading that no check
// is needed.
func (j *judging) quiet(r Judged) bool {
	for _, t := range slices.Backward(j.Readings) {
		if t.inTrend() {
			return r.Drop == nil || math.Abs(*t.Drop-*r.Drop) <= quietStep
		}
	}
	return true
}

const (
	agreed = 0.2            // how near two readings of one bath must be to confirm each other
	aDay   = 24 * time.Hour // in which a bath does not change for itself
)

// confirmed reports whether r was read twice alike, or three times, or is like
// another reading of the day before it.
func (j *judging) confirmed(r Judged) bool {
	if r.Is.Third != nil || r.Is.Again != nil && math.Abs(float64(r.Is.PH-*r.Is.Again)) <= agreed+1e-9 {
		return true
	}
	for _, t := range slices.Backward(j.Readings) {
		if r.At.Sub(t.At) > aDay {
			return false
		}
		if t.Drop != nil && r.Drop != nil && t.Doubt.Kind != DoubtMeter && math.Abs(*t.Drop-*r.Drop) <= agreed+1e-9 {
			return true
		}
	}
	return false
}

// Settle makes of what was read up to three times what counts: the middle one of
// three; of two that differ the one that is in line. What was typed is kept
// beside it.
func (x *Snapshot) Settle(r *bath.Reading) {
	switch {
	case r.Again == nil:
	case r.Third != nil:
		three := []units.PH{r.PH, *r.Again, *r.Third}
		slices.Sort(three)
		r.PH, r.Again, r.Third = three[1], &three[0], &three[2]
	case !r.Baseline && math.Abs(float64(r.PH-*r.Again)) > agreed:
		second := *r
		second.PH, second.Again = *r.Again, nil
		if x.inLine(&second) && !x.inLine(r) {
			first := r.PH
			r.PH, r.Again = second.PH, &first
		}
	}
}

// inLine reports whether a reading taken now is what those before it lead to
// expect.
func (x *Snapshot) inLine(r *bath.Reading) bool {
	j, typed := x.typed(r)
	v, _, _, ok := j.before(typed).expected(typed)
	return !ok || v == trend.InLine
}

// before is the judging of what was read before r.
func (j *judging) before(r Judged) *judging {
	past := *j
	past.Readings = slices.DeleteFunc(slices.Clone(j.Readings), func(t Judged) bool { return !t.Before(r.Entry) })
	return &past
}
