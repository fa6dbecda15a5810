package trend

import (
	"math"
	"testing"
)

func TestRefusals(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name  string
		spoil func(*Input)
		want  string
	}{
		{"columns", func(in *Input) { in.Loads = in.Loads[1:] },
			"4 days, 4 offsets and 3 loads do not make a list of readings: give one of each for every reading"},
		{"uncertainties", func(in *Input) { in.U = []float64{0.1} },
			"1 uncertainties for 4 readings: give one for every reading, or none"},
		{"now", func(in *Input) { in.Now = nan },
			"now, day NaN, is no day of a fill: give the days since the fill, 0 to 3650"},
		{"later than now", func(in *Input) { in.Now = 7 },
			"the reading of day 9 lies after now, day 7: leave it out, or give a later now"},
		{"before the fill", func(in *Input) { in.Days[0] = -1 },
			"a reading on day -1 is none of a fill: give the days since the fill, 0 to 3650"},
		{"order", func(in *Input) { in.Days[1] = 7 },
			"the reading of day 6 stands after that of day 7: give the readings in order of time"},
		{"no pH", func(in *Input) { in.Offsets[2] = math.Inf(-1) },
			"an offset of -Inf is no pH: give reading minus first reading, as in -0.21"},
		{"fewer loads", func(in *Input) { in.Loads[3] = 2 },
			"2 loads by day 9 are fewer than the 6 before: give all loads since the fill"},
		{"loads", func(in *Input) { in.Loads[0] = nan },
			"NaN loads cannot have been washed: give all loads since the fill, 0 or more"},
		{"u", func(in *Input) { in.U = []float64{0, 0, -0.1, 0} },
			"an uncertainty of -0.1 is none of a pH: give it as in 0.07, or 0 for an ordinary reading"},
		{"top-up", func(in *Input) { in.TopUps = TopUps{{Day: 12}} },
			"a top-up on day 12 is not between the fill and now, day 9: give the day it was added"},
		{"rise", func(in *Input) { in.TopUps = TopUps{{Day: 2, Rise: -1}} },
			"a top-up that raises the pH by -1: give the rise to expect, or 0 if it is not known"},
		{"limit", func(in *Input) { in.Limit = -0.5 },
			"a limit of -0.5 is no drop of pH: give the drop at which to act, as in 0.5"},
		{"planned", func(in *Input) { in.Planned = []float64{1, -2} },
			"-2 loads cannot be washed: give 0 or more"},
		{"prior", func(in *Input) { in.Prior = Prior{PerDay: 0.005} },
			"a prior of {PerDay:0.005 PerLoad:0 DayVar:0 LoadVar:0 Cov:0 Sigma2:0 Worth:0} is none that a fill leaves: " +
				"give the one of the last fill, or none"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := steady(4)
			tt.spoil(&in)
			_, err := in.Fit()
			if err == nil || err.Error() != tt.want {
				t.Errorf("got %v, want %s", err, tt.want)
			}
			if _, err := in.BathChart(); err == nil {
				t.Error("the chart took it")
			}
		})
	}
}

func TestCheckRefuses(t *testing.T) {
	if c, err := mustFit(t, steady(4)).Check(Reading{Day: 10, Offset: math.NaN()}); err == nil {
		t.Errorf("got %+v of a reading that is none", c)
	}
}
