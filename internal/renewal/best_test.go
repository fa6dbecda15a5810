package renewal

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func count(n int) *int { return &n }

// Expected numbers follow from testdata/renewal/renewal.csv by sums on paper:
// 88.56 days are used up after 3 top-ups, 100.8 after 4.
func TestBestWithinLimits(t *testing.T) {
	tests := []struct {
		name   string
		gains  []float64
		limits Limits
		topUps int
		tried  int
		stop   Stop
	}{
		{"none", tableGains(12), Limits{}, 5, 13, Dearer},
		{"gains end early", tableGains(4), Limits{}, 4, 5, GainsEnd},
		{"gains end at the best", tableGains(5), Limits{}, 5, 6, GainsEnd},
		{"refill alone", tableGains(0), Limits{}, 0, 1, GainsEnd},
		{"two top-ups", tableGains(12), Limits{TopUps: count(2)}, 2, 3, AtLimit},
		{"two top-ups, no more gains", tableGains(2), Limits{TopUps: count(2)}, 2, 3, AtLimit},
		{"no top-up allowed", tableGains(12), Limits{TopUps: count(0)}, 0, 1, AtLimit},
		{"more allowed than pay", tableGains(12), Limits{TopUps: count(8)}, 5, 9, Dearer},
		{"old within the refill", tableGains(12), Limits{AgeDays: 21}, 0, 1, AtLimit},
		{"old at the end of a gain", tableGains(12), Limits{AgeDays: 54}, 1, 2, AtLimit},
		{"old just after a top-up", tableGains(12), Limits{AgeDays: 90}, 3, 5, AtLimit},
		{"old before a gain is over", tableGains(12), Limits{AgeDays: 100}, 4, 5, AtLimit},
		{"40 loads at one a day", tableGains(12), Limits{Loads: 40, LoadsPerDay: 1}, 1, 2, AtLimit},
		{"loads before age", tableGains(12), Limits{AgeDays: 100, Loads: 20, LoadsPerDay: 2}, 0, 1, AtLimit},
		{"age before loads", tableGains(12), Limits{AgeDays: 21, Loads: 40, LoadsPerDay: 1}, 0, 1, AtLimit},
		{"limits out of reach", tableGains(12), Limits{TopUps: count(50), AgeDays: 3650, Loads: 9000, LoadsPerDay: 1}, 5, 13, Dearer},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := best(t, tableCosts, tt.gains, tt.limits)
			if a.TopUps != tt.topUps || len(a.CostPerDay) != tt.tried || a.Stop != tt.stop {
				t.Errorf("got %d top-ups of %d tried, %v; want %d of %d, %v", a.TopUps, len(a.CostPerDay)-1, a.Stop, tt.topUps, tt.tried-1, tt.stop)
			}
		})
	}
}

// Ten times 0.1 is a hair below 1 in binary.
func TestLimitIsReachedDespiteRounding(t *testing.T) {
	c, gains := Costs{Refill: 100, TopUp: 1}, slices.Repeat([]float64{0.1}, 11)
	for n := 10; n <= 11; n++ {
		a := best(t, c, gains[:n], Limits{AgeDays: 1})
		if a.TopUps != 9 || len(a.CostPerDay) != 10 || a.Stop != AtLimit {
			t.Errorf("%d gains: got %d top-ups of %d tried, %v; want 9 of 9 and the limit", n, a.TopUps, len(a.CostPerDay)-1, a.Stop)
		}
	}
}

func TestLimitOfNextToNoDay(t *testing.T) {
	a := best(t, tableCosts, tableGains(3), Limits{AgeDays: 1e-12})
	if a.TopUps != 0 || a.Stop != AtLimit {
		t.Errorf("got %d top-ups, %v; want none and the limit", a.TopUps, a.Stop)
	}
}

// Source: arithmetic. Days cut by an age count in the cost a day.
func TestAgeCutsTheLastGain(t *testing.T) {
	a := best(t, Costs{Refill: 100, TopUp: 10}, []float64{20, 20, 20}, Limits{AgeDays: 25})
	want := []float64{5, 4.4} // 100/20 and 110/25
	if diff := cmp.Diff(want, a.CostPerDay); diff != "" {
		t.Errorf("cost a day (-want +got):\n%s", diff)
	}
}

// Source: testdata/renewal/renewal.csv: 21.25 over 2.352763 a day.
func TestLeastGainIsWhereATopUpStopsPaying(t *testing.T) {
	a := best(t, tableCosts, tableGains(12), Limits{})
	if math.Abs(a.LeastGainDays-9.0319) > 0.0001 {
		t.Errorf("got %.4f days, want 9.0319", a.LeastGainDays)
	}
}

func TestEqualCostsTakeTheFewest(t *testing.T) {
	// 90/30 = (90+30)/40 = (90+60)/50 = 3 a day: arithmetic.
	c, gains := Costs{Refill: 90, TopUp: 30}, []float64{30, 10, 10}
	a := best(t, c, gains, Limits{})
	if a.TopUps != 0 || a.Stop != Dearer || walk(t, c, gains) != 0 {
		t.Errorf("got %d top-ups, %v; by the rule %d; want none", a.TopUps, a.Stop, walk(t, c, gains))
	}
}

func TestBestSeesPastADip(t *testing.T) {
	// 100/10 = 10, 150/11 = 13.6, 200/51 = 3.9 a day: arithmetic. The rule
	// promises nothing for gains that rise.
	c, gains := Costs{Refill: 100, TopUp: 50}, []float64{10, 1, 40}
	if a := best(t, c, gains, Limits{}); a.TopUps != 2 {
		t.Errorf("got %d top-ups, want 2", a.TopUps)
	}
}

func TestTopUpsForNothingAlwaysPay(t *testing.T) {
	a := best(t, Costs{Refill: 100}, []float64{10, 5, 1}, Limits{})
	if a.TopUps != 2 || a.LeastGainDays != 0 {
		t.Errorf("got %d top-ups that must bring %g days, want 2 and 0", a.TopUps, a.LeastGainDays)
	}
}

func TestBestLeavesTheGainsAlone(t *testing.T) {
	gains := tableGains(12)
	best(t, tableCosts, gains, Limits{TopUps: count(3), AgeDays: 50})
	if !slices.Equal(gains, tableGains(12)) {
		t.Errorf("the gains have become %v", gains)
	}
}

// Source: arithmetic. 154.15 over 30 days and 196.65 over 73.2 are 350.80 over
// 103.2, and not the mean of the two rates.
func TestLongRunAddsUpFirst(t *testing.T) {
	got, err := tableCosts.LongRun([]Cycle{{30, 0}, {73.2, 2}})
	if err != nil || math.Abs(got-3.399225) > 1e-6 {
		t.Errorf("got %.6f, %v; want 3.399225", got, err)
	}
}
