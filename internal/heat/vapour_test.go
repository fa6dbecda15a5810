package heat

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

// Source: evaporation.csv, kilograms a day; a kilogram is poured in as 1.0009 L
// at 15 °C (IAPWS-97).
func TestEvaporationOfADay(t *testing.T) {
	const litres = 1 / 0.999101
	largest := 0.0
	for _, r := range readTable(t, "evaporation.csv") {
		bath, room := units.Temperature(r["Tw_C"]), Room{units.Temperature(r["Ta_C"]), r["RH"]}
		for column, v := range map[string]Vessel{
			"open_0.25": {Surface: 0.25}, "open_0.40": {Surface: 0.40},
			"lid_0.25": {Surface: 0.25, Lid: true}, "lid_0.40": {Surface: 0.40, Lid: true},
		} {
			e, err := v.Evaporation(bath, room)
			if err != nil {
				t.Fatal(err)
			}
			want := r[column] * litres
			off := math.Abs(float64(e.PerDay())-want) / want
			if largest = max(largest, off); off > 0.002 {
				t.Errorf("%s, %g °C in %v: got %.3f, want %.3f L a day", column, bath, room, e.PerDay(), want)
			}
		}
	}
	t.Logf("largest error %.3f %%", 100*largest)
}

// Source: EPA 625/8-82-008, still plating baths in a ventilated shop at 75 °F
// and 75 %, gallons an hour and square foot: more than over a bath in a still
// room.
func TestAStillRoomTakesLessThanAVentilatedShop(t *testing.T) {
	shop := Room{Air: units.Fahrenheit(75), RH: 0.75}
	const kg = 3.785411784 / 0.09290304 // kg/(m²·h) of a gal/(h·ft²)
	for bathF, gallons := range map[float64]float64{80: 0.017, 180: 0.3} {
		if got := evaporation(units.Fahrenheit(bathF), shop); got <= 0 || got >= gallons*kg {
			t.Errorf("%g °F: got %.3f, want below %.3f kg/(m²·h)", bathF, got, gallons*kg)
		}
	}
}

func TestALearnedLidIsTaken(t *testing.T) {
	open, shut := tank(false, true), tank(true, true)
	shut.LidShare = 0.25
	if got, want := shut.evaporation(52, indoors), open.evaporation(52, indoors)/4; math.Abs(float64(got-want)) > 1e-12 {
		t.Errorf("got %g, want %g kg/h", got, want)
	}
}

// A day by the hours of evaporation.csv: 0.25 m² at 52 and 35 °C in 20 °C, 50 %.
func TestADayHasItsHours(t *testing.T) {
	const hot, idle = 11.0428, 3.5161 // L a day, open
	v := Vessel{Surface: 0.25, Lid: true}
	tests := []struct {
		name         string
		heated, open float64
		want         float64
	}{
		{"never heated", 0, 0, 0.1 * idle},
		{"kept hot under its lid", 24, 0, 0.1 * hot},
		{"kept hot and open", 24, 24, hot},
		{"hot by day, open for a wash", 12, 3, 3*hot/24 + 0.1*9*hot/24 + 0.1*12*idle/24},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := v.PerDay(Routine{52, 35, units.Hours(tt.heated), units.Hours(tt.open)}, indoors)
			if err != nil || math.Abs(float64(got)-tt.want) > 0.002*tt.want {
				t.Errorf("got %.4f, %v, want %.4f L", got, err, tt.want)
			}
		})
	}
}

func TestEvaporationRefusals(t *testing.T) {
	v := Vessel{Surface: 0.25}
	nan := math.NaN()
	for name, f := range map[string]func() error{
		"steam":              func() error { _, err := v.Evaporation(81, indoors); return err },
		"no reading":         func() error { _, err := v.Evaporation(units.Temperature(nan), indoors); return err },
		"surface below zero": func() error { _, err := Vessel{Surface: -1}.Evaporation(52, indoors); return err },
		"lid above an open bath": func() error {
			_, err := Vessel{Surface: 1, Lid: true, LidShare: 1.1}.Evaporation(52, indoors)
			return err
		},
		"humidity in per cent": func() error { _, err := v.Evaporation(52, Room{20, 50}); return err },
		"a day of 25 h":        func() error { _, err := v.PerDay(Routine{52, 20, units.Hours(25), 0}, indoors); return err },
		"open when not heated": func() error { _, err := v.PerDay(Routine{52, 20, 0, units.Hours(1)}, indoors); return err },
		"a loss of NaN":        func() error { _, err := Vessel{Water: 200, LossFactor: nan}.CoolTo(52, 40, indoors); return err },
	} {
		if f() == nil {
			t.Errorf("%s: got no error", name)
		}
	}
}

// Stretches of a week: an open bath of 0.30 m² loses 13.25 L a day by
// evaporation.csv, of which the lid lets through what is said.
func TestLearnLid(t *testing.T) {
	const week = 7 * 13.25 // L of an open bath of 0.30 m²
	week1 := func(shares ...float64) (seen []MakeUp) {
		for _, f := range shares {
			seen = append(seen, MakeUp{units.Volume(f * week), week})
		}
		return seen
	}
	tests := []struct {
		name         string
		lid          bool
		seen         []MakeUp
		want, within float64
		used, left   int
	}{
		{"nothing added yet", true, nil, 0.10, 0, 0, 0},
		{"nothing added yet, open", false, nil, 1, 0, 0, 0},
		{"a good lid", true, week1(0.05, 0.06, 0.04, 0.05), 0.05, 0.01, 4, 0},
		{"a lid mostly up", true, week1(0.50, 0.60, 0.45, 0.55), 0.50, 0.05, 4, 0},
		{"a spill told as evaporation", true, week1(0.10, 0.12, 0.9, 0.11), 0.11, 0.01, 3, 1},
		{"an open bath in a draught", false, week1(1.3, 1.4, 1.35), 1.25, 0.1, 3, 0},
		{"nothing missing", true, week1(0, 0, 0), 0.01, 0.01, 3, 0},
		{"a stretch of no time", true, []MakeUp{{3, 0}}, 0.10, 0, 0, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tank(tt.lid, true).LearnLid(tt.seen)
			if math.Abs(got.Value-tt.want) > tt.within+1e-12 || got.Used != tt.used || got.Left != tt.left {
				t.Errorf("got %+v, want %g, %d used, %d left", got, tt.want, tt.used, tt.left)
			}
		})
	}
}

func TestALidIsNeverLearnedOutOfReason(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := tank(rapid.Bool().Draw(t, "lid"), true)
		var seen []MakeUp
		for range rapid.IntRange(0, 8).Draw(t, "stretches") {
			seen = append(seen, MakeUp{units.Volume(rapid.Float64Range(-5, 300).Draw(t, "missing")), units.Volume(rapid.Float64Range(-1, 200).Draw(t, "open"))})
		}
		got := v.LearnLid(seen)
		if !(got.Value >= 0.01 && got.Value <= 3 && got.U > 0) || got.Used+got.Left != len(seen) || v.Lid && got.Value > 1 {
			t.Errorf("got %+v from %v", got, seen)
		}
		v.LidShare = got.Value
		if _, err := v.Evaporation(52, indoors); v.Lid && err != nil {
			t.Error(err)
		}
	})
}

func TestSlowWarmUp(t *testing.T) {
	const want = "the warm-up took 3 h 10 min, expected was about 1 h 40 min: look at the level, then at the heater: scale, or an element that is dead"
	if got, ok := SlowWarmUp(190*time.Minute, 102*time.Minute); !ok || got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for name, took := range map[string]time.Duration{"at 1.5 times": 150 * time.Minute, "quick": 20 * time.Minute} {
		if got, ok := SlowWarmUp(took, 100*time.Minute); ok {
			t.Errorf("%s: got %q, want nothing", name, got)
		}
	}
	if _, ok := SlowWarmUp(time.Hour, 0); ok {
		t.Error("nothing was expected, and it is slow")
	}
}

// Source: heatup_times.csv: 6 kW take 1.719 h, and 4.5 kW, one element of four
// dead, 2.320 h; 3 kW, two of them, 3.571 h.
func TestHalfAHeaterIsAFinding(t *testing.T) {
	expected, err := tank(false, true).WarmUp(15, 52, 6000, indoors)
	if err != nil {
		t.Fatal(err)
	}
	for hours, want := range map[float64]bool{1.719: false, 2.320: false, 3.571: true} {
		if _, got := SlowWarmUp(units.Hours(hours).Duration(), expected); got != want {
			t.Errorf("%g h: got %v, want %v", hours, got, want)
		}
	}
}
