package renewal

import (
	"errors"
	"fmt"
)

// What is believed of a bath: ten years, and a price that fits on a line. Our
// own bounds, no source.
const (
	mostDays = 3650
	mostCost = 1e9
)

// check refuses costs that cannot be weighed. Here and below conditions are put
// so that NaN is refused too.
func (c Costs) check() error {
	if !(c.Refill > 0 && c.Refill <= mostCost) {
		return fmt.Errorf("a refill that costs %g cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal", c.Refill)
	}
	if !(c.TopUp >= 0 && c.TopUp <= mostCost) {
		return fmt.Errorf("a top-up that costs %g cannot be weighed: give 0 or more, like 21.25, with soap and work", c.TopUp)
	}
	return nil
}

func checkGains(gainDays []float64) error {
	if len(gainDays) == 0 {
		return errors.New("no gains were given: write the days that a refill lasts, then the days that each top-up adds, like 30,24,19")
	}
	if gainDays[0] == 0 {
		return errors.New("a refill that lasts 0 days is no bath: the first gain is how many days a refill lasts, like 30")
	}
	for _, gain := range gainDays {
		if err := checkGain(gain); err != nil {
			return err
		}
	}
	return nil
}

func checkGain(days float64) error {
	if !(days >= 0 && days <= mostDays) {
		return fmt.Errorf("a gain of %g days is not believable: give 0 to %d", days, mostDays)
	}
	return nil
}

func checkRate(longRun float64) error {
	if !(longRun > 0 && longRun <= mostCost) {
		return fmt.Errorf("a long-run cost of %g a day cannot be weighed: give more than 0, from past baths", longRun)
	}
	return nil
}

func (l Limits) check() error {
	if l.TopUps != nil && *l.TopUps < 0 {
		return fmt.Errorf("a limit of %d top-ups is none: give 0 or more, or leave it out", *l.TopUps)
	}
	if !(l.AgeDays >= 0 && l.AgeDays <= mostDays) {
		return fmt.Errorf("a limit of %g days is none: give more than 0 and at most %d, or leave it out", l.AgeDays, mostDays)
	}
	if l.Loads < 0 {
		return fmt.Errorf("a limit of %d loads is none: give 1 or more, or leave it out", l.Loads)
	}
	if l.Loads > 0 && !(l.LoadsPerDay > 0 && l.LoadsPerDay <= 1000) {
		return fmt.Errorf("a limit of %d loads gives no days at %g loads a day: give more than 0 and at most 1000 a day, or leave the limit out", l.Loads, l.LoadsPerDay)
	}
	return nil
}
