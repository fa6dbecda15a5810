package renewal

import (
	"math"
	"testing"
)

func TestBestRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	gains := []float64{30, 24}
	tests := []struct {
		name   string
		costs  Costs
		gains  []float64
		limits Limits
		want   string
	}{
		{"free refill", Costs{0, 10}, gains, Limits{}, "a refill that costs 0 cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal"},
		{"negative refill", Costs{-5, 10}, gains, Limits{}, "a refill that costs -5 cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal"},
		{"refill not a number", Costs{nan, 10}, gains, Limits{}, "a refill that costs NaN cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal"},
		{"negative top-up", Costs{100, -1}, gains, Limits{}, "a top-up that costs -1 cannot be weighed: give 0 or more, like 21.25, with soap and work"},
		{"endless top-up", Costs{100, inf}, gains, Limits{}, "a top-up that costs +Inf cannot be weighed: give 0 or more, like 21.25, with soap and work"},
		{"no gains", tableCosts, nil, Limits{}, "no gains were given: write the days that a refill lasts, then the days that each top-up adds, like 30,24,19"},
		{"refill for no day", tableCosts, []float64{0, 24}, Limits{}, "a refill that lasts 0 days is no bath: the first gain is how many days a refill lasts, like 30"},
		{"negative gain", tableCosts, []float64{30, -24}, Limits{}, "a gain of -24 days is not believable: give 0 to 3650"},
		{"gain not a number", tableCosts, []float64{30, nan}, Limits{}, "a gain of NaN days is not believable: give 0 to 3650"},
		{"gain of a lifetime", tableCosts, []float64{30000}, Limits{}, "a gain of 30000 days is not believable: give 0 to 3650"},
		{"negative top-ups", tableCosts, gains, Limits{TopUps: count(-1)}, "a limit of -1 top-ups is none: give 0 or more, or leave it out"},
		{"negative age", tableCosts, gains, Limits{AgeDays: -1}, "a limit of -1 days is none: give more than 0 and at most 3650, or leave it out"},
		{"age not a number", tableCosts, gains, Limits{AgeDays: nan}, "a limit of NaN days is none: give more than 0 and at most 3650, or leave it out"},
		{"negative loads", tableCosts, gains, Limits{Loads: -4}, "a limit of -4 loads is none: give 1 or more, or leave it out"},
		{"loads without a pace", tableCosts, gains, Limits{Loads: 40}, "a limit of 40 loads gives no days at 0 loads a day: give more than 0 and at most 1000 a day, or leave the limit out"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := Best(tt.costs, tt.gains, tt.limits); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}

func TestPaysRefuses(t *testing.T) {
	tests := []struct {
		name          string
		costs         Costs
		gain, longRun float64
		want          string
	}{
		{"free refill", Costs{}, 10, 2, "a refill that costs 0 cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal"},
		{"gain unknown", tableCosts, math.NaN(), 2, "a gain of NaN days is not believable: give 0 to 3650"},
		{"long run unknown", tableCosts, 10, 0, "a long-run cost of 0 a day cannot be weighed: give more than 0, from past baths"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := tt.costs.Pays(tt.gain, tt.longRun); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}

func TestLongRunRefuses(t *testing.T) {
	tests := []struct {
		name  string
		costs Costs
		past  []Cycle
		want  string
	}{
		{"no cycle", tableCosts, nil, "no bath has run from refill to drain yet: a cost a day is known after the first"},
		{"no day", tableCosts, []Cycle{{30, 1}, {0, 1}}, "a bath of 0 days is none: give more than 0 and at most 3650"},
		{"negative top-ups", tableCosts, []Cycle{{30, -1}}, "-1 top-ups are none: give 0 or more"},
		{"free refill", Costs{}, []Cycle{{30, 1}}, "a refill that costs 0 cannot be weighed: give more than 0, like 154.15, with soap, water, heat, work and disposal"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := tt.costs.LongRun(tt.past); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}
