package renewal

import (
	"errors"
	"fmt"
)

// Cycle is one bath that is over, from its refill to its drain.
type Cycle struct {
	Days   float64
	TopUps int
}

// LongRun is what a day has cost over all of past: the costs of all cycles over
// the days of all, not the mean of their rates. Decided by it, cycle after
// cycle, the rate comes down to the least there is. It refuses to tell from no
// cycle, and from one that cannot be.
func (c Costs) LongRun(past []Cycle) (float64, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	if len(past) == 0 {
		return 0, errors.New("no bath has run from refill to drain yet: a cost a day is known after the first")
	}
	cost, days := 0.0, 0.0
	for _, p := range past {
		if !(p.Days > 0 && p.Days <= mostDays) {
			return 0, fmt.Errorf("a bath of %g days is none: give more than 0 and at most %d", p.Days, mostDays)
		}
		if p.TopUps < 0 {
			return 0, fmt.Errorf("%d top-ups are none: give 0 or more", p.TopUps)
		}
		cost += c.Refill + float64(p.TopUps)*c.TopUp
		days += p.Days
	}
	return cost / days, nil
}
