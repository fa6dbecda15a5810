package load_test

import (
	"math"
	"strings"
	"testing"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

var unknown = units.Temperature(math.NaN())

func shipped(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func pick(t testing.TB, name string, soil load.Soil, in load.Conditions) load.Cycle {
	t.Helper()
	item, err := shipped(t).Item(name)
	if err != nil {
		t.Fatal(err)
	}
	if in.Set == 0 {
		in.Set = units.Fahrenheit(122)
	}
	cycle, err := load.Pick(item, soil, in)
	if err != nil {
		t.Fatal(err)
	}
	return cycle
}

// Minutes at working temperature: mask 3 to 5, helmet about 5, cylinder about
// 10, harness pack 10 to 15. A bath a few degrees below its set point may be
// used a little longer. Common practice, no source. The factor for a colder
// bath is 1.5 per 10 °C, from memory; the wants follow by arithmetic:
// 6 °F is 3.33 °C, 1.5^0.333 is 1.145.
func TestMinutes(t *testing.T) {
	tests := []struct {
		name string
		item string
		soil load.Soil
		bath units.Temperature
		want float64
	}{
		{"mask light", "mask", load.Light, 50, 3},
		{"mask normal", "mask", load.Normal, 50, 4},
		{"mask heavy", "mask", load.Heavy, 50, 5},
		{"helmet", "helmet", load.Normal, 50, 5},
		{"cylinder", "cylinder", load.Normal, 50, 10},
		{"pack light", "pack", load.Light, 50, 10},
		{"pack heavy", "pack", load.Heavy, 50, 15},
		{"mask 6 °F below: 4.58", "mask", load.Normal, units.Fahrenheit(116), 5},
		{"cylinder 6 °F below: 11.45", "cylinder", load.Normal, units.Fahrenheit(116), 11.5},
		{"cylinder 10 °C below: 15", "cylinder", load.Normal, 40, 15},
		{"cylinder 15 °C below: 18.4, longest 15", "cylinder", load.Normal, 35, 15},
		{"as good as at the set point", "cylinder", load.Normal, 49.6, 10},
		{"above the set point", "cylinder", load.Normal, 51, 10},
		{"not measured", "cylinder", load.Normal, unknown, 10},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := pick(t, tt.item, tt.soil, load.Conditions{Bath: tt.bath}).Minutes; got != tt.want {
				t.Errorf("got %v min, want %v", got, tt.want)
			}
		})
	}
}

// At 1.5 per 10 °C a bath of 49 °C needs 1.22 times the minutes of one of
// 54 °C, and at 2 per 10 °C 1.41 times: arithmetic, 1.5^0.5 and 2^0.5. A wash
// of 100 min shows the factor to half a percent.
func TestMinutesPerTenC(t *testing.T) {
	tests := []struct {
		name    string
		perTenC float64
		want    float64
	}{
		{"left out", 0, 1.22},
		{"1.5", 1.5, 1.22},
		{"2", 2, 1.41},
		{"1", 1, 1},
	}
	item := catalog.Item{
		Minutes: catalog.Minutes{Light: 100, Normal: 100, Heavy: 100, Longest: 1000},
		Limit:   catalog.Limit{At: 60, Printed: "60 C"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cycle, err := load.Pick(item, load.Normal, load.Conditions{Bath: 49, Set: 54, PerTenC: tt.perTenC})
			if err != nil {
				t.Fatal(err)
			}
			if !cmp.Equal(cycle.Minutes/100, tt.want, cmpopts.EquateApprox(0, 0.01)) {
				t.Errorf("got %v times, want %v", cycle.Minutes/100, tt.want)
			}
		})
	}
}

func TestSay(t *testing.T) {
	tests := []struct {
		name string
		item string
		in   load.Conditions
		want string
	}{
		{"at the set point", "mask", load.Conditions{Bath: 50}, "4 min."},
		{"a little below", "mask", load.Conditions{Bath: units.Fahrenheit(116)},
			"5 min: 4 at 122 °F, the bath is 6 °F below."},
		{"in °C", "cylinder", load.Conditions{Bath: 47, Units: units.SI},
			"11.5 min: 10 at 50 °C, the bath is 3 °C below."},
		{"above", "cylinder", load.Conditions{Bath: 51},
			"10 min, as at 122 °F: a hotter bath is no reason for less."},
		{"longest", "cylinder", load.Conditions{Bath: 35},
			"15 min, the longest for cylinders: at 95 °F it would take 18.5. Heat the bath first."},
		{"longest, and never at the set point", "mask", load.Conditions{Bath: 40},
			"5 min, the longest for masks: at 104 °F it would take 6. Light soil only; look, and wash again if needed."},
		{"not measured", "mask", load.Conditions{Bath: unknown}, "4 min at 122 °F. Measure the bath first."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := pick(t, tt.item, load.Normal, tt.in).Say; got != tt.want {
				t.Errorf("got  %q\nwant %q", got, tt.want)
			}
		})
	}
}

func TestPickErrors(t *testing.T) {
	item, err := shipped(t).Item("mask")
	if err != nil {
		t.Fatal(err)
	}
	good := load.Conditions{Bath: 42, Set: 50}
	tests := []struct {
		name   string
		soil   load.Soil
		change func(*load.Conditions)
		want   string
	}{
		{"soil", "filthy", func(*load.Conditions) {}, `soil "filthy" is not known; write light, normal or heavy`},
		{"set point left out", load.Normal, func(in *load.Conditions) { in.Set = 0 }, "set point is 32 °F; set it between 95 °F and 130 °F"},
		{"set point not known", load.Normal, func(in *load.Conditions) { in.Set = unknown }, "set point is not known; set it"},
		{"set point too high", load.Normal, func(in *load.Conditions) { in.Set = 60 }, "set point is 140 °F; set it"},
		{"factor below 1", load.Normal, func(in *load.Conditions) { in.PerTenC = 0.5 }, "minutes would grow by 0.5 for each 10 °C; 1 to 3 is allowed"},
		{"factor not a number", load.Normal, func(in *load.Conditions) { in.PerTenC = math.NaN() }, "minutes would grow by NaN"},
		{"endless bath", load.Normal, func(in *load.Conditions) { in.Bath = units.Temperature(math.Inf(-1)) }, "bath temperature is not a number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			in := good
			tt.change(&in)
			if _, err := load.Pick(item, tt.soil, in); err == nil || !strings.HasPrefix(err.Error(), tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
}

func TestParseSoil(t *testing.T) {
	for _, s := range []string{"light", "Normal", " HEAVY "} {
		if soil, err := load.ParseSoil(s); err != nil || !strings.EqualFold(string(soil), strings.TrimSpace(s)) {
			t.Errorf("%q: got %q, %v", s, soil, err)
		}
	}
	const want = `soil "spotless" is not known; write light, normal or heavy`
	if _, err := load.ParseSoil("spotless"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %v", err, want)
	}
}

// Whatever the bath: never beyond the longest, never shorter than at the set
// point, on the timer's half minutes, and a cooler bath never takes less.
func TestMinutesAlwaysHold(t *testing.T) {
	items := shipped(t).Items
	rapid.Check(t, func(t *rapid.T) {
		item := rapid.SampledFrom(items).Draw(t, "item")
		soil := rapid.SampledFrom([]load.Soil{load.Light, load.Normal, load.Heavy}).Draw(t, "soil")
		in := load.Conditions{
			Bath:    units.Temperature(rapid.Float64Range(-50, 150).Draw(t, "bath")),
			Set:     units.Temperature(rapid.Float64Range(35, 54).Draw(t, "set")),
			PerTenC: rapid.Float64Range(1, 3).Draw(t, "per 10 °C"),
		}
		cooler := in
		cooler.Bath -= units.Temperature(rapid.Float64Range(0, 50).Draw(t, "cooler by"))
		a, err := load.Pick(item, soil, in)
		if err != nil {
			t.Fatal(err)
		}
		b, err := load.Pick(item, soil, cooler)
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case b.Minutes < a.Minutes:
			t.Fatalf("cooler bath takes %v min, warmer %v", b.Minutes, a.Minutes)
		case a.Minutes > a.Longest || a.Minutes < a.MinutesAtSet:
			t.Fatalf("%v min is outside %v to %v", a.Minutes, a.MinutesAtSet, a.Longest)
		case a.Minutes != a.Longest && a.Minutes*2 != math.Trunc(a.Minutes*2):
			t.Fatalf("%v min is no half minute", a.Minutes)
		}
	})
}
