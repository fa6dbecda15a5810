package renewal

// Answer is how many top-ups are best, with what it follows from.
type Answer struct {
	TopUps int // at the least cost a day; the fewest, where costs are equal

	// CostPerDay is the long-run cost a day of none, one, two top-ups and so
	// on before each refill, for as many as were asked about and the limits
	// let. It is in the unit of the costs, and CostPerDay[TopUps] is the least.
	CostPerDay []float64

	// LeastGainDays is what a top-up must bring, and a little more, to pay in
	// the long run.
	LeastGainDays float64

	Stop Stop
}

// Stop is why an answer has no more top-ups.
type Stop int

const (
	Dearer   Stop = iota // the next top-up costs more a day than the long run does, or as much
	AtLimit              // another would pay, or might, but a limit forbids it
	GainsEnd             // all that were asked about pay, and more might
)

// String says it as the end of a sentence.
func (s Stop) String() string {
	switch s {
	case AtLimit:
		return "a limit of the bath forbids another top-up"
	case GainsEnd:
		return "no gain is given for another top-up, which may pay too"
	}
	return "another top-up costs as much a day as it saves, or more"
}

// Best finds the number of top-ups with the least cost a day in the long run.
// The first of gainDays is how many days a refill lasts, the others what each
// top-up adds, expected or seen. It tries each number that the limits let, so
// it is right for gains that rise too.
//
// Costs below zero, a free refill, no gains, and gains or limits that cannot
// be are refused in one sentence.
func Best(c Costs, gainDays []float64, l Limits) (Answer, error) {
	if err := c.check(); err != nil {
		return Answer{}, err
	}
	if err := checkGains(gainDays); err != nil {
		return Answer{}, err
	}
	if err := l.check(); err != nil {
		return Answer{}, err
	}
	var a Answer
	days := 0.0
	for n, gain := range l.cut(gainDays) {
		days += gain
		a.CostPerDay = append(a.CostPerDay, c.perDay(n, days))
		if a.CostPerDay[n] < a.CostPerDay[a.TopUps] {
			a.TopUps = n
		}
	}
	longRun := a.CostPerDay[a.TopUps]
	a.LeastGainDays = c.TopUp / longRun
	a.Stop = c.stop(a.TopUps, longRun, gainDays, l)
	return a, nil
}

// stop tells why n top-ups are the best, by the gains that no limit has cut.
func (c Costs) stop(n int, longRun float64, gainDays []float64, l Limits) Stop {
	next := n + 1
	switch {
	case next < len(gainDays) && c.pays(gainDays[next], longRun):
		return AtLimit
	case next < len(gainDays):
		return Dearer
	case l.reached(n, gainDays):
		return AtLimit
	}
	return GainsEnd
}
