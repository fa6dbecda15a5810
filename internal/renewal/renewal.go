// Package renewal weighs topping up against draining: how many top-ups a bath
// should get before it is renewed, by what a day of it costs in the long run.
//
// It is arithmetic on costs and days that the caller gives. It foretells no
// gain, knows no price, and says nothing of whether a bath may be kept: a limit
// of pH, a red tag or a failed foil check decides before any cost does.
//
// The long-run cost a day is the cost of one cycle over its days, by the
// renewal-reward theorem (Ross, Applied Probability Models with Optimization
// Applications, 1970, from memory). That a top-up pays while it costs less a
// day than the long run does is the stopping rule of Aven and Bergman, Optimal
// replacement times: a general set-up, Journal of Applied Probability 23, 1986
// (its lambda minimization, from the abstract). The like rule for an age is in
// Barlow and Proschan, Mathematical Theory of Reliability, 1965, chapter 4,
// from memory.
package renewal

// Costs are what a refill and a top-up take, all counted: soap, water, heat,
// work and disposal. Both are in one unit, which may be any: money where prices
// are known, else hours of work or jugs. What each day costs anyway is left
// out, as it changes no choice.
type Costs struct {
	Refill, TopUp float64
}

// Pays tells whether one more top-up, which is expected to bring gainDays, is
// cheaper than to drain now. It is where TopUp/gainDays is below longRun, the
// cost a day in the long run; at equal cost it is not. This is the best there
// is as long as no later top-up brings more days than an earlier one.
//
// A good longRun is that of past cycles, by LongRun, once one is complete: the
// present bath's own average so far tops up a little too often. Costs, days and
// rates that cannot be are refused in one sentence.
func (c Costs) Pays(gainDays, longRun float64) (bool, error) {
	if err := c.check(); err != nil {
		return false, err
	}
	if err := checkGain(gainDays); err != nil {
		return false, err
	}
	if err := checkRate(longRun); err != nil {
		return false, err
	}
	return c.pays(gainDays, longRun), nil
}

// pays is Pays unchecked. It multiplies, so that a top-up may bring no day.
func (c Costs) pays(gainDays, longRun float64) bool {
	return c.TopUp < longRun*gainDays
}

// perDay is what a day costs in a cycle of so many top-ups and days.
func (c Costs) perDay(topUps int, days float64) float64 {
	return (c.Refill + float64(topUps)*c.TopUp) / days
}
