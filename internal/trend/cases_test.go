package trend

import (
	"encoding/json"
	"os"
	"testing"
)

// outcome is what a case of forecast_cases.json expects.
type outcome struct {
	M       []float64   `json:"m"`
	V       [][]float64 `json:"V"`
	Sigma2  float64     `json:"sigma2"`
	Weights []float64   `json:"weights"`
	Rate    float64     `json:"rate_loads_per_day"`
	RateVar float64     `json:"var_rate"`
	Q10     float64     `json:"q10_days"`
	Q50     float64     `json:"q50_days"`
	Q90     float64     `json:"q90_days"`
}

type testCase struct {
	Name   string  `json:"name"`
	Input  Input   `json:"input"`
	Expect outcome `json:"expect"`
}

func readCases(t testing.TB) []testCase {
	t.Helper()
	text, err := os.ReadFile("../../testdata/trend/forecast_cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []testCase `json:"cases"`
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 25 {
		t.Fatalf("got %d cases, want 25", len(file.Cases))
	}
	return file.Cases
}

// Source: forecast_cases.json, computed outside this project with numpy and
// scipy by the same algorithm.
func TestForecastCases(t *testing.T) {
	for _, c := range readCases(t) {
		t.Run(c.Name, func(t *testing.T) {
			f, err := c.Input.Fit()
			if err != nil {
				t.Fatal(err)
			}
			alike(t, "m", f.Mean(), c.Expect.M, 1e-6)
			alike(t, "weights", f.Weights(), c.Expect.Weights, 1e-6)
			for i, row := range c.Expect.V {
				alike(t, "V", f.cov[i], row, 1e-6)
			}
			w, q := c.Input.ahead(), f.Forecast()
			alike(t, "sigma2, loads a day",
				[]float64{f.Sigma2(), w.rate, w.rateVar},
				[]float64{c.Expect.Sigma2, c.Expect.Rate, c.Expect.RateVar}, 1e-6)
			alike(t, "days",
				[]float64{q.Q10, q.Q50, q.Q90},
				[]float64{c.Expect.Q10, c.Expect.Q50, c.Expect.Q90}, 0.01)
		})
	}
}
