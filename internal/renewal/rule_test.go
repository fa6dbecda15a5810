package renewal

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// walk tops up by the published rule, one step at a time, against the rate of
// the cycle so far, and returns how often.
func walk(t testing.TB, c Costs, gainDays []float64) int {
	t.Helper()
	days := gainDays[0]
	for n, gain := range gainDays[1:] {
		rate, err := c.LongRun([]Cycle{{days, n}})
		if err != nil {
			t.Fatal(err)
		}
		if !pays(t, c, gain, rate) {
			return n
		}
		days += gain
	}
	return len(gainDays) - 1
}

// bruteForce is the least cost a day over all numbers of top-ups up to most,
// where no day after the age counts.
func bruteForce(c Costs, gainDays []float64, most int, age float64) (topUps int, rate float64) {
	rate = math.Inf(1)
	for n := range min(most+1, len(gainDays)) {
		days := 0.0
		for _, gain := range gainDays[:n+1] {
			days += gain
		}
		if g := (c.Refill + float64(n)*c.TopUp) / min(days, age); g < rate*(1-1e-12) {
			topUps, rate = n, g
		}
	}
	return topUps, rate
}

// randomCase is a bath whose gains fall, or stay, with a cap on top-ups and age.
func randomCase(r *rand.Rand) (c Costs, gainDays []float64, most int, age float64) {
	c = Costs{Refill: 20 + 300*r.Float64(), TopUp: 60 * r.Float64()}
	for range 1 + r.IntN(15) {
		gainDays = append(gainDays, 0.1+40*r.Float64())
	}
	slices.Sort(gainDays)
	slices.Reverse(gainDays)
	if n := len(gainDays); n > 3 && r.IntN(4) == 0 {
		gainDays[n-2], gainDays[n-1] = gainDays[n-3], 0
	}
	return c, gainDays, r.IntN(16), 5 + 400*r.Float64()
}

// capped cuts the gains for the walk, in its own way.
func capped(gainDays []float64, most int, age float64) []float64 {
	var kept []float64
	before := 0.0
	for _, gain := range gainDays[:min(most+1, len(gainDays))] {
		kept = append(kept, min(before+gain, age)-min(before, age))
		before += gain
	}
	return kept
}

// TestRuleAndBestAgreeWithBruteForce is the theorem on 2,000 random cases: where
// gains fall, the one-step rule finds the least of all. The seed is fixed.
func TestRuleAndBestAgreeWithBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1986, 23))
	stops, counts := map[Stop]int{}, map[int]int{}
	for i := range 2000 {
		c, gains, most, age := randomCase(r)
		want, rate := bruteForce(c, gains, most, age)
		a := best(t, c, gains, Limits{TopUps: &most, AgeDays: age})
		if got := a.CostPerDay[a.TopUps]; a.TopUps != want || math.Abs(got/rate-1) > 1e-9 {
			t.Fatalf("case %d: best is %d at %.9f a day, want %d at %.9f (%+v, gains %v, at most %d, %g days)", i, a.TopUps, got, want, rate, c, gains, most, age)
		}
		if got := walk(t, c, capped(gains, most, age)); got != want {
			t.Fatalf("case %d: the rule tops up %d times, want %d (%+v, gains %v, at most %d, %g days)", i, got, want, c, gains, most, age)
		}
		stops[a.Stop]++
		counts[want]++
	}
	t.Logf("stops %v, top-ups %v", stops, counts)
	if len(stops) != 3 || len(counts) < 8 {
		t.Errorf("the cases are too much alike: stops %v, top-ups %v", stops, counts)
	}
}

// TestLongRunComesDownToTheLeast decides each cycle by the rate of the one
// before: from any first rate it is the least there is within a few cycles. The
// method is the lambda minimization that the package names.
func TestLongRunComesDownToTheLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(1970, 1))
	longest := 0
	for i := range 300 {
		c, gains, _, _ := randomCase(r)
		want := best(t, c, gains, Limits{})
		rate, cycles := want.CostPerDay[r.IntN(len(gains))], 0
		for ; math.Abs(rate/want.CostPerDay[want.TopUps]-1) > 1e-9; cycles++ {
			if cycles == 10 {
				t.Fatalf("case %d: still %.6f a day after %d cycles, want %.6f", i, rate, cycles, want.CostPerDay[want.TopUps])
			}
			n, days := 0, gains[0]
			for n+1 < len(gains) && pays(t, c, gains[n+1], rate) {
				n++
				days += gains[n]
			}
			var err error
			if rate, err = c.LongRun([]Cycle{{days, n}}); err != nil {
				t.Fatal(err)
			}
		}
		longest = max(longest, cycles)
	}
	t.Logf("at most %d cycles", longest)
}
