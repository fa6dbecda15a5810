package trend

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestForecastStates(t *testing.T) {
	low := steady(6)
	for i := range low.Offsets {
		low.Offsets[i] -= 0.45
	}
	still := steady(60)
	for i := range still.Offsets {
		still.Offsets[i] = 0
	}
	still.Planned, still.Limit = []float64{0}, 1
	for _, tt := range []struct {
		name string
		in   Input
		want State
		note string
	}{
		{"no reading", Input{Now: 3}, NoDate, "no date yet"},
		{"one reading", steady(1), NoDate, "no date yet"},
		{"two readings", steady(2), Dated, ""},
		{"many", steady(9), Dated, ""},
		{"at the limit", low, Due, "probably already due: measure again"},
		{"does not fall", still, Later, "later than 120 days"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := mustFit(t, tt.in).Forecast()
			if got.State != tt.want || got.State.Note() != tt.note {
				t.Errorf("got %+v %q, want %s %q", got, got.State.Note(), tt.want, tt.note)
			}
			if none := math.IsNaN(got.Q10) && math.IsNaN(got.P28); none != (tt.want == NoDate) {
				t.Errorf("got %+v: numbers and %s do not go together", got, tt.want)
			}
		})
	}
}

// A bath at 0.27 under its start that falls 0.015 a day has 15 days left.
func TestForecastOfASteadyFall(t *testing.T) {
	got := mustFit(t, steady(7)).Forecast()
	alike(t, "half", []float64{got.Q50}, []float64{(0.5 - 0.27) / 0.015}, 1)
	if !(got.Q10 < got.Q50 && got.Q50 < got.Q90 && got.P7 < 0.2 && got.P28 > 0.8) {
		t.Errorf("got %+v, want about 15 days", got)
	}
}

// A flat bath just under its limit gets less sure with time; a bath that was at
// its limit stays so.
func TestNoBathComesBackFromItsLimit(t *testing.T) {
	in := steady(60)
	for i := range in.Offsets {
		in.Offsets[i] = -0.54
	}
	in.Planned = []float64{0}
	c := mustFit(t, in).curve()
	for i := range c[1:] {
		if c[i+1] < c[i] {
			t.Fatalf("after %g days: got %g, before that %g", float64(i+1)*perStep, c[i+1], c[i])
		}
	}
}

func TestForecastFollowsThePlan(t *testing.T) {
	in := steady(8)
	in.Planned = []float64{1}
	same := mustFit(t, in).Forecast()
	guessed := mustFit(t, steady(8)).Forecast()
	if same.Q90-same.Q10 >= guessed.Q90-guessed.Q10 {
		t.Errorf("got %+v with a plan and %+v without, want it narrower", same, guessed)
	}
	in.Planned = []float64{0}
	idle := mustFit(t, in).Forecast()
	in.Planned = []float64{0, 0, 0, 0, 0, 20, 20}
	busy := mustFit(t, in).Forecast()
	if !(busy.Q50 < same.Q50 && same.Q50 < idle.Q50) {
		t.Errorf("half: busy %g, as before %g, idle %g; want them in this order", busy.Q50, same.Q50, idle.Q50)
	}
}

func TestPlannedLoads(t *testing.T) {
	w := (&Input{Planned: []float64{2, 0, 4}}).ahead()
	for _, tt := range []struct{ tau, want float64 }{{0, 0}, {0.5, 1}, {1, 2}, {2, 2}, {2.25, 3}, {3, 6}, {7.5, 14}, {8.5, 16}} {
		got, _ := w.by(tt.tau)
		alike(t, "loads", []float64{got}, []float64{tt.want}, 1e-12)
	}
}

// A wider limit is later, loads since the last reading are sooner.
func TestForecastKnowsLimitAndLoads(t *testing.T) {
	in := steady(8)
	plain := mustFit(t, in).Forecast().Q50
	in.Limit = 0.6
	wider := mustFit(t, in).Forecast().Q50
	in.Limit, in.LoadsNow = 0, in.Loads[7]+8
	washed := mustFit(t, in).Forecast().Q50
	if !(washed < plain && plain < wider) {
		t.Errorf("got %g washed, %g, %g with a wider limit; want them in this order", washed, plain, wider)
	}
}

// The low edge of the fan is at the limit on the early date.
func TestFanMeetsTheDates(t *testing.T) {
	f := mustFit(t, steady(9))
	dates := f.Forecast()
	low, _, _ := f.Fan(dates.Q10)
	_, mid, _ := f.Fan(dates.Q50)
	_, _, high := f.Fan(dates.Q90)
	alike(t, "fan", []float64{low, mid, high}, []float64{-Limit, -Limit, -Limit}, 0.01)
}

func TestTopUpsInJSON(t *testing.T) {
	for _, tt := range []struct {
		text string
		want TopUps
	}{
		{`null`, nil},
		{`20`, TopUps{{Day: 20}}},
		{`[]`, TopUps{}},
		{`[{"day":4.5,"rise":0.25},{"day":9}]`, TopUps{{4.5, 0.25}, {9, 0}}},
	} {
		var got TopUps
		if err := json.Unmarshal([]byte(tt.text), &got); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%s: %s", tt.text, diff)
		}
	}
	if err := json.Unmarshal([]byte(`"monday"`), new(TopUps)); err == nil {
		t.Error("a day by name was read")
	}
}

// anyInput draws a fill of any shape that is not refused.
func anyInput(t *rapid.T) Input {
	var in Input
	day, loads := 0.0, 0.0
	for range rapid.IntRange(0, 12).Draw(t, "readings") {
		day += rapid.Float64Range(0, 9).Draw(t, "days")
		loads += rapid.Float64Range(0, 20).Draw(t, "loads")
		in.Add(Reading{
			Day: day, Loads: loads,
			Offset: rapid.Float64Range(-3, 2).Draw(t, "offset"),
			U:      rapid.SampledFrom([]float64{0, 0.07, 0.14, 1}).Draw(t, "u"),
		})
	}
	in.Now = day + rapid.Float64Range(0, 30).Draw(t, "since")
	in.DailyLoads = rapid.SliceOfN(rapid.Float64Range(0, 30), 0, 40).Draw(t, "daily")
	in.Planned = rapid.SliceOfN(rapid.Float64Range(0, 30), 0, 8).Draw(t, "planned")
	for range rapid.IntRange(0, 3).Draw(t, "topUps") {
		in.TopUps = append(in.TopUps, TopUp{Day: rapid.Float64Range(0, in.Now).Draw(t, "topUp")})
	}
	return in
}

func TestForecastIsAlwaysInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		f, err := in.Fit()
		if err != nil {
			t.Fatal(err)
		}
		q := f.Forecast()
		if q.State == NoDate {
			return
		}
		ordered := 0 <= q.Q10 && q.Q10 <= q.Q50 && q.Q50 <= q.Q90 && q.Q90 <= Horizon
		chances := 0 <= q.P7 && q.P7 <= q.P14 && q.P14 <= q.P28 && q.P28 <= 1
		if !ordered || !chances || (q.State == Due) != (q.Q50 == 0) || (q.State == Later) != (q.Q10 == Horizon) {
			t.Errorf("got %+v", q)
		}
		p := f.Next()
		if err := p.check(); err != nil {
			t.Errorf("the prior that is left: %v", err)
		}
	})
}

// A reading of which nothing is known changes nothing.
func TestWorthlessReadingIsWorthless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := steady(7)
		want := in.fit()
		in.Add(Reading{Day: in.Now, Loads: in.Now, U: mostPH, Offset: rapid.Float64Range(-5, 5).Draw(t, "offset")})
		got := in.fit()
		for i, m := range want.Mean() {
			if math.Abs(got.Mean()[i]-m) > 1e-3 {
				t.Errorf("mean[%d]: got %g, want %g", i, got.Mean()[i], m)
			}
		}
		if a, b := got.Forecast().Q50, want.Forecast().Q50; math.Abs(a-b) > 0.1 || math.Abs(got.Sigma2()/want.Sigma2()-1) > 0.01 || math.Abs(got.t.nu-want.t.nu) > 0.01 {
			t.Errorf("got %g days, sigma2 %g, want %g, %g", a, got.Sigma2(), b, want.Sigma2())
		}
	})
}
