package renewal

import (
	"fmt"
	"math"
	"testing"
)

// Source: testdata/renewal/renewal.csv, printed to 0.000001.
func TestCostsAgreeWithTheTable(t *testing.T) {
	table := readTable(t)
	gains := tableGains(12)
	a := best(t, tableCosts, gains, Limits{})
	for n := range 12 {
		want := number(t, table, fmt.Sprintf("g(%d top-ups) $/day", n))
		if got := a.CostPerDay[n]; math.Abs(got-want) > 6e-7 {
			t.Errorf("%d top-ups: got %.6f a day, want %.6f", n, got, want)
		}
		marginal := number(t, table, fmt.Sprintf("marginal cT/x_%d", n+1))
		if pays(t, tableCosts, gains[n+1], marginal-1e-6) || !pays(t, tableCosts, gains[n+1], marginal+1e-6) {
			t.Errorf("top-up %d does not turn from dear to cheap at a long run of %.6f a day", n+1, marginal)
		}
	}
	if got, want := fmt.Sprintf("%d / %d", walk(t, tableCosts, gains), a.TopUps), table["N* by marginal rule / by search"]; got != want {
		t.Errorf("top-ups by rule / by search: got %s, want %s", got, want)
	}
}

// Source: testdata/renewal/renewal.csv, the best of 9x9x9 ways to run three
// cycles, each with its own number of top-ups.
func TestNoMixOfCyclesIsCheaper(t *testing.T) {
	days := make([]float64, 9)
	sum := 0.0
	for n, gain := range tableGains(8) {
		sum += gain
		days[n] = sum
	}
	least, at := math.Inf(1), [3]int{}
	for i := range 729 {
		mix := [3]int{i / 81, i / 9 % 9, i % 9}
		var past []Cycle
		for _, n := range mix {
			past = append(past, Cycle{days[n], n})
		}
		rate, err := tableCosts.LongRun(past)
		if err != nil {
			t.Fatal(err)
		}
		if rate < least {
			least, at = rate, mix
		}
	}
	got := fmt.Sprintf("%.6f with N=(%d, %d, %d)", least, at[0], at[1], at[2])
	if want := readTable(t)["best over all 3-cycle mixtures of N"]; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// TestRuleOnHealthOfTheBath holds the rule, given the expected next gain, to
// where a dynamic program refills. Its 41 states of health are 4.5 % apart and
// end at three deviations, so 10 % are left for the grid.
//
// Source: testdata/renewal/renewal.csv, stochastic; the mean of a lognormal.
func TestRuleOnHealthOfTheBath(t *testing.T) {
	table := readTable(t)
	longRun := number(t, table, "optimal cost rate lambda* (semi-Markov DP, 41 health states)")
	gains := tableGains(7)
	const rho, sd = 0.7, 0.3
	for n := 2; n <= 6; n++ {
		refill := number(t, table, fmt.Sprintf("after %d top-ups refill when health h <=", n))
		expected := func(h float64) float64 {
			return gains[n+1] * math.Pow(h, rho) * math.Exp(sd*sd*(1-rho*rho)/2)
		}
		if pays(t, tableCosts, expected(refill), longRun) {
			t.Errorf("after %d top-ups and at health %.4f another pays, want a refill", n, refill)
		}
		if !pays(t, tableCosts, expected(refill*1.10), longRun) {
			t.Errorf("after %d top-ups and at health %.4f a refill is cheaper, want a top-up", n, refill*1.10)
		}
	}
}

// TestExpectedGainsGiveTheBestFixedNumber takes the mean health, exp(sd²/2), for
// every gain. The grid of the reference ends at three deviations: 0.2 % are left
// for that.
//
// Source: testdata/renewal/renewal.csv, stochastic.
func TestExpectedGainsGiveTheBestFixedNumber(t *testing.T) {
	var want float64
	var topUps int
	text := readTable(t)["best fixed-N cost rate (stationary health)"]
	if _, err := fmt.Sscanf(text, "%f at N=%d", &want, &topUps); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	gains := tableGains(12)
	for n := range gains {
		gains[n] *= math.Exp(0.3 * 0.3 / 2)
	}
	a := best(t, tableCosts, gains, Limits{})
	if got := a.CostPerDay[a.TopUps]; a.TopUps != topUps || math.Abs(got/want-1) > 0.002 {
		t.Errorf("got %d top-ups at %.4f a day, want %d at %.4f", a.TopUps, got, topUps, want)
	}
}
