package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// compute runs calc with --json in this process and reads its answer.
func compute(t *testing.T, in []byte, answer any, args ...string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	p := process("none.db", &stdout, &stderr, append([]string{"calc", "--json"}, args...)...)
	p.In = bytes.NewReader(in)
	if code := Main(p); code != 0 {
		t.Fatalf("calc %v: code %d, %s", args, code, stderr.String())
	}
	if err := json.Unmarshal(stdout.Bytes(), answer); err != nil {
		t.Fatalf("calc %v: %v", args, err)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %g, want %g within %g", what, got, want, within)
	}
}

// Source: testdata/trend/forecast_cases.json, computed outside this project
// with numpy and scipy.
func TestCalcForecastCases(t *testing.T) {
	var file struct {
		Cases []struct {
			Name   string          `json:"name"`
			Input  json.RawMessage `json:"input"`
			Expect struct {
				M      []float64 `json:"m"`
				Sigma2 float64   `json:"sigma2"`
				Q10    float64   `json:"q10_days"`
				Q50    float64   `json:"q50_days"`
				Q90    float64   `json:"q90_days"`
			} `json:"expect"`
		} `json:"cases"`
	}
	text, err := os.ReadFile("../../testdata/trend/forecast_cases.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 25 {
		t.Fatalf("got %d cases, want 25", len(file.Cases))
	}
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var got struct {
				Mean          []float64
				Sigma2        float64
				Q10, Q50, Q90 *float64
			}
			compute(t, c.Input, &got, "forecast")
			if len(got.Mean) != len(c.Expect.M) || got.Q10 == nil || got.Q50 == nil || got.Q90 == nil {
				t.Fatalf("got %+v", got)
			}
			for i, want := range c.Expect.M {
				near(t, fmt.Sprintf("mean %d", i), got.Mean[i], want, 1e-6)
			}
			near(t, "sigma2", got.Sigma2, c.Expect.Sigma2, 1e-6)
			near(t, "q10", *got.Q10, c.Expect.Q10, 0.01)
			near(t, "q50", *got.Q50, c.Expect.Q50, 0.01)
			near(t, "q90", *got.Q90, c.Expect.Q90, 0.01)
		})
	}
}

// table reads a table of testdata: its rows by the names of their columns.
func table(t *testing.T, path ...string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(append([]string{"..", "..", "testdata"}, path...)...))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 2 {
		t.Fatalf("read %v: %d lines, %v", path, len(lines), err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Source: testdata/heat/evaporation.csv, the mean of two published formulas in
// kg a day, computed outside this project with IAPWS-97 properties. Water of
// 15 °C weighs 0.9991 kg/L (IAPWS-95).
func TestCalcEvaporationTable(t *testing.T) {
	for _, r := range table(t, "heat", "evaporation.csv") {
		for _, lid := range []string{"open", "lid"} {
			args := []string{
				"evaporation", "--area", "0.25m2", "--bath", r["Tw_C"] + "C", "--air", r["Ta_C"] + "C",
				"--rh", fmt.Sprint(100 * number(t, r["RH"])), fmt.Sprintf("--lid=%t", lid == "lid"),
			}
			var got map[string]float64
			compute(t, nil, &got, args...)
			kg := number(t, r[lid+"_0.25"])
			near(t, fmt.Sprint(args), got["kg_per_h"], kg/24, 0.002*kg/24)
			near(t, fmt.Sprint(args), got["litres_per_day"], kg/0.9991, 0.002*kg)
		}
	}
}

// Source: testdata/balance/mass_balance.csv, section H, computed outside this
// project.
func TestCalcTurnoverTable(t *testing.T) {
	want := map[string]float64{}
	for _, r := range table(t, "balance", "mass_balance.csv") {
		want[r["id"]] = number(t, r["value"])
	}
	for id, f := range map[string]struct{ flow, efficiency string }{
		"filter1": {"20L/min", "0.5"}, "filter2": {"40L/min", "0.9"}, "filter3": {"20L/min", "1"},
	} {
		var got map[string]float64
		compute(t, nil, &got, "turnover", "--flow", f.flow, "--volume", "227.124707L", "--time", "30min", "--efficiency", f.efficiency)
		near(t, id+" turnovers", got["turnovers"], want[id+"_turnovers"], 1e-6)
		near(t, id+" an hour", got["per_hour"], 2*want[id+"_turnovers"], 2e-6)
		near(t, id+" removed", got["removed_frac"], 1-want[id+"_left"], 1e-6)
	}
}

// Source: testdata/renewal/renewal.csv, computed outside this project with
// numpy: gains of 30 days times 0.8 for each top-up.
func TestCalcRenewalTable(t *testing.T) {
	want := map[string]string{}
	for _, r := range table(t, "renewal", "renewal.csv") {
		want[r["quantity"]] = r["value"]
	}
	const most = 11
	gains, gain := "30", 30.0
	for range most {
		gain *= 0.8
		gains += fmt.Sprintf(",%.12g", gain)
	}
	var got struct {
		Best   int       `json:"best_topups"`
		PerDay []float64 `json:"cost_per_day"`
		Least  float64   `json:"least_gain_days"`
		Stop   string    `json:"stop"`
	}
	compute(t, nil, &got, "renewal", "--refill", "154.15", "--topup", "21.25", "--gains", gains)
	if fmt.Sprintf("%d / %d", got.Best, got.Best) != want["N* by marginal rule / by search"] || got.Stop != "dearer" || len(got.PerDay) != most+1 {
		t.Fatalf("got %+v", got)
	}
	for n, cost := range got.PerDay {
		near(t, fmt.Sprintf("%d top-ups", n), cost, number(t, want[fmt.Sprintf("g(%d top-ups) $/day", n)]), 6e-7)
	}
	near(t, "least gain", got.Least, 21.25/number(t, want["g(5 top-ups) $/day"]), 1e-5)
}
