package heat

import (
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: mass_balance.csv, every row of it.
func TestMassBalance(t *testing.T) {
	line := units.Gallons(60)
	start := Liquor{line, 0.02}
	days := func(n float64) units.Span { return units.Span(n) * day }
	dry := start.After(Pace{Evaporation: 8, CarryOut: 3}, days(5))
	daily := start
	for range 5 {
		daily = daily.After(Pace{Evaporation: 8, CarryOut: 3}, days(1))
		daily = daily.Plus(Liquor{Volume: line - daily.Volume})
	}
	strong := Pace{Evaporation: 8, CarryOut: 3, MakeUp: 11, Strength: 0.008}
	dose, err := Liquor{215, 0.014}.Dose(line, 0.02)
	if err != nil {
		t.Fatal(err)
	}
	swap, err := Liquor{line, 0.014}.Dose(line, 0.02)
	if err != nil {
		t.Fatal(err)
	}
	loads := start
	for range 40 {
		loads = loads.Less(0.35).Plus(Liquor{Volume: 0.35})
	}
	drained := Liquor{line, 1}.Less(line / 3)
	drained = drained.Plus(Liquor{Volume: line - drained.Volume})

	got := row{
		"dry_V": float64(dry.Volume), "dry_C": 100 * dry.Strength, "dry_C_euler": 100 * dry.Strength,
		"dry_filled_C": 100 * dry.Plus(Liquor{Volume: line - dry.Volume}).Strength,
		"kept_C":       100 * start.After(Pace{Evaporation: 8, CarryOut: 3, MakeUp: 11}, days(5)).Strength,
		"daily_C":      100 * daily.Strength, "daily_factor": math.Pow(daily.Strength/start.Strength, 0.2),
		"strong_steady": 100 * strong.Settles(), "strong_C": 100 * start.After(strong, days(5)).Strength,
		"holding":   100 * strong.Holds(0.02),
		"dose_soap": float64(dose.Soap), "dose_water": float64(dose.Water), "swap": float64(swap.Soap),
		"loads_exp":   start.After(Pace{CarryOut: 14, MakeUp: 14}, day).Strength / start.Strength,
		"loads_exact": loads.Strength / start.Strength, "drained": drained.Strength,
	}
	filters(t, got, line)
	largest := 0.0
	for id, want := range readBalance(t) {
		value, ok := got[id]
		if !ok {
			t.Errorf("%s: no figure of ours", id)
			continue
		}
		off := math.Abs(value - want)
		if largest = max(largest, off); off > 1e-6 {
			t.Errorf("%s: got %.7f, want %.7f", id, value, want)
		}
	}
	t.Logf("largest error %.1e", largest)
}

// filters adds what mass_balance.csv says of filters.
func filters(t *testing.T, got row, line units.Volume) {
	t.Helper()
	run := func(lpm, efficiency float64, time units.Span) Filtered {
		r, err := Filter{units.LitresPerMinute(lpm), line, efficiency}.Run(time)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for id, f := range map[string]Filtered{
		"filter1": run(20, 0.5, units.Minutes(30)),
		"filter2": run(40, 0.9, units.Minutes(30)),
		"filter3": run(20, 1, units.Minutes(30)),
	} {
		got[id+"_turnovers"], got[id+"_left"] = f.Turnovers, 1-f.Removed
	}
	for n, id := range []string{1: "passed_1", 2: "passed_2", 3: "passed_3", 4: "passed_4", 5: "passed_5", 6: "passed_6"} {
		if n > 0 {
			got[id] = run(60*float64(line), 1, units.Span(n)).Removed
		}
	}
	half := Filter{units.LitresPerMinute(20), line, 0.5}
	ninety, err := half.Time(0.9)
	if err != nil {
		t.Fatal(err)
	}
	gain := 0.2 / 60 / float64(line)
	got["filter_90"] = ninety.Min()
	got["soil_30"] = half.Soil(0, gain, units.Minutes(30))
	got["soil_steady"] = half.Soil(0, gain, units.Hours(1000))
}

// By hand: 8 gpm through 80 gal is a turnover in 10 min; 1 − e^−2.7 of the soil.
func TestTurnoversOfARun(t *testing.T) {
	got, err := Filter{units.GallonsPerMinute(8), units.Gallons(80), 0.9}.Run(units.Minutes(30))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.PerHour-6) > 1e-9 || math.Abs(got.Turnovers-3) > 1e-9 || math.Abs(got.Removed-0.932794) > 1e-6 {
		t.Errorf("got %+v, want 6 an hour, 3 turnovers, 0.932794", got)
	}
}

func TestFilterRefusals(t *testing.T) {
	nan := math.NaN()
	for name, f := range map[string]Filter{
		"no pump": {0, 200, 1}, "no bath": {1, 0, 1}, "a pump of NaN": {units.Flow(nan), 200, 1},
		"efficiency in per cent": {1, 200, 90}, "efficiency of NaN": {1, 200, nan},
	} {
		if got, err := f.Run(60); err == nil {
			t.Errorf("%s: got %+v and no error", name, got)
		}
		if got, err := f.Time(0.5); err == nil {
			t.Errorf("%s: got %v and no error", name, got)
		}
		if got := f.Soil(1, 0, 60); !math.IsNaN(got) {
			t.Errorf("%s: got %v, want NaN", name, got)
		}
	}
	ok := Filter{1, 200, 1}
	if _, err := ok.Run(-1); err == nil {
		t.Error("a run before its start: got no error")
	}
	if _, err := ok.Time(1); err == nil {
		t.Error("all of the soil: got no error")
	}
	if got, err := (Filter{1, 200, 0}).Time(0.5); err != nil || !math.IsInf(float64(got), 1) {
		t.Errorf("a cartridge with a hole: got %v, %v, want no end", got, err)
	}
}
