package trend

import (
	"fmt"
	"math"
	"slices"
)

// What the fit knows: years of days, and the span of the pH scale. Far beyond
// any bath, they keep a slip of the keyboard from becoming a date.
const (
	mostDays  = 3650
	mostLoads = 1e6
	mostPH    = 14

	hair = 1e-9 // what sums of the same numbers may differ by
)

// check refuses figures that are none of a fill. Its conditions are put so that
// NaN is refused too.
func (in *Input) check() error {
	if err := in.checkColumns(); err != nil {
		return err
	}
	if !(in.Now >= 0 && in.Now <= mostDays) {
		return fmt.Errorf("now, day %g, is no day of a fill: give the days since the fill, 0 to %d", in.Now, mostDays)
	}
	for i := range in.Days {
		if err := in.checkReading(i); err != nil {
			return err
		}
	}
	for _, t := range in.TopUps {
		if err := in.checkTopUp(t); err != nil {
			return err
		}
	}
	if !(in.Limit >= 0 && in.Limit <= mostPH) {
		return fmt.Errorf("a limit of %g is no drop of pH: give the drop at which to act, as in 0.5", in.Limit)
	}
	if err := in.checkLoads(); err != nil {
		return err
	}
	return in.Prior.check()
}

func (in *Input) checkColumns() error {
	n := len(in.Days)
	if len(in.Offsets) != n || len(in.Loads) != n {
		return fmt.Errorf("%d days, %d offsets and %d loads do not make a list of readings: give one of each for every reading",
			n, len(in.Offsets), len(in.Loads))
	}
	if len(in.U) != 0 && len(in.U) != n {
		return fmt.Errorf("%d uncertainties for %d readings: give one for every reading, or none", len(in.U), n)
	}
	return nil
}

func (in *Input) checkReading(i int) error {
	r := in.reading(i)
	if err := r.check(); err != nil {
		return err
	}
	if r.Day > in.Now+hair {
		return fmt.Errorf("the reading of day %g lies after now, day %g: leave it out, or give a later now", r.Day, in.Now)
	}
	if i == 0 {
		return nil
	}
	if last := in.Days[i-1]; r.Day < last {
		return fmt.Errorf("the reading of day %g stands after that of day %g: give the readings in order of time", r.Day, last)
	}
	if last := in.Loads[i-1]; r.Loads < last {
		return fmt.Errorf("%g loads by day %g are fewer than the %g before: give all loads since the fill", r.Loads, r.Day, last)
	}
	return nil
}

func (r Reading) check() error {
	switch {
	case !(r.Day >= 0 && r.Day <= mostDays):
		return fmt.Errorf("a reading on day %g is none of a fill: give the days since the fill, 0 to %d", r.Day, mostDays)
	case !(math.Abs(r.Offset) <= mostPH):
		return fmt.Errorf("an offset of %g is no pH: give reading minus first reading, as in -0.21", r.Offset)
	case !(r.Loads >= 0 && r.Loads <= mostLoads):
		return fmt.Errorf("%g loads cannot have been washed: give all loads since the fill, 0 or more", r.Loads)
	case !(r.U >= 0 && r.U <= mostPH):
		return fmt.Errorf("an uncertainty of %g is none of a pH: give it as in 0.07, or 0 for an ordinary reading", r.U)
	}
	return nil
}

func (in *Input) checkTopUp(t TopUp) error {
	if !(t.Day >= 0 && t.Day <= in.Now) {
		return fmt.Errorf("a top-up on day %g is not between the fill and now, day %g: give the day it was added", t.Day, in.Now)
	}
	if !(t.Rise >= 0 && t.Rise <= mostPH) {
		return fmt.Errorf("a top-up that raises the pH by %g: give the rise to expect, or 0 if it is not known", t.Rise)
	}
	return nil
}

func (in *Input) checkLoads() error {
	for _, loads := range slices.Concat(in.DailyLoads, in.Planned, []float64{in.LoadsNow}) {
		if !(loads >= 0 && loads <= mostLoads) {
			return fmt.Errorf("%g loads cannot be washed: give 0 or more", loads)
		}
	}
	return nil
}
