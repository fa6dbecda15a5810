package trend

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Without readings of its own a fill is as the prior says.
func TestFitWithoutReadingsIsThePrior(t *testing.T) {
	prior := Prior{PerDay: 0.006, PerLoad: 0.012, DayVar: 4e-6, LoadVar: 9e-6, Cov: -2e-6, Sigma2: 0.005, Worth: 10}
	in := Input{Now: 5, TopUps: TopUps{{Day: 2}, {Day: 4, Rise: 0.3}}, Prior: prior}
	f := mustFit(t, in)
	alike(t, "mean", f.Mean(), []float64{0, -0.006, -0.012, topUpRise, 0.3}, 1e-12)
	alike(t, "cov", []float64{f.cov[perDay][perDay], f.cov[perLoad][perLoad], f.cov[perDay][perLoad]},
		[]float64{4e-6, 9e-6, -2e-6}, 1e-15)
	alike(t, "sigma2", []float64{f.Sigma2()}, []float64{0.005}, 1e-15)
}

// Source: forecast_cases.json, its first case: mean, V and sigma2, with the
// widening worked out by hand.
func TestNextOfTheFirstCase(t *testing.T) {
	got := mustFit(t, readCases(t)[0].Input).Next()
	alike(t, "rates", []float64{got.PerDay, got.PerLoad}, []float64{0.005283, 0.011129}, 0.5e-6)
	alike(t, "spread", []float64{got.DayVar, got.LoadVar, got.Cov}, []float64{2.3604e-5, 2.6817e-5, -2.2138e-5}, 0.5e-9)
	alike(t, "noise", []float64{got.Sigma2, got.Worth}, []float64{0.004631, 10}, 0.5e-6)
}

// What is left is never tighter than the drift from fill to fill, never a rise,
// and its scatter is never worth more than 20 readings.
func TestNextStaysOpen(t *testing.T) {
	prior := Prior{}
	for range 30 {
		in := steady(30)
		for i := range in.Offsets {
			in.Offsets[i] *= -1
		}
		in.Prior = prior
		prior = mustFit(t, in).Next()
	}
	if prior.DayVar < 0.0008*0.0008 || prior.LoadVar < 0.001*0.001 || prior.PerDay < 1e-4 || prior.PerLoad < 1e-4 {
		t.Errorf("got %+v, want it open and falling", prior)
	}
	if prior.Worth != 20 {
		t.Errorf("worth: got %g, want 20", prior.Worth)
	}
}

func TestHistory(t *testing.T) {
	one, err := History([]Input{steady(8)})
	if err != nil {
		t.Fatal(err)
	}
	if want := mustFit(t, steady(8)).Next(); one != want {
		t.Errorf("one fill: %s", cmp.Diff(want, one))
	}
	empty, err := History([]Input{{Now: 3}, steady(1)})
	if err != nil {
		t.Fatal(err)
	}
	if empty != DefaultPrior() {
		t.Errorf("fills without two readings: %s", cmp.Diff(DefaultPrior(), empty))
	}
	again := steady(8)
	again.Prior = one
	two, err := History([]Input{steady(8), {}, steady(8)})
	if err != nil {
		t.Fatal(err)
	}
	if want := mustFit(t, again).Next(); two != want {
		t.Errorf("two fills: %s", cmp.Diff(want, two))
	}
	broken := steady(3)
	broken.Offsets[1] = 99
	if _, err := History([]Input{steady(3), broken}); err == nil {
		t.Error("a broken fill was taken")
	}
}

func TestPriorSurvivesJSON(t *testing.T) {
	want := mustFit(t, steady(8)).Next()
	text, err := json.Marshal(Input{Prior: want})
	if err != nil {
		t.Fatal(err)
	}
	var got Input
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got.Prior); diff != "" {
		t.Error(diff)
	}
}
