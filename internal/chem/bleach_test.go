package chem_test

import (
	"math"
	"strings"
	"testing"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// Source: 29 CFR 1910.134 App. B-2, "approximately one milliliter of laundry
// bleach to one liter of water" for 50 ppm, written when bleach was 5.25 %; the
// others are arithmetic on the label's percent.
func TestBleachForFiftyPPM(t *testing.T) {
	tests := []struct{ percent, ml, within float64 }{
		{5.25, 1, 0.05}, {5.25, 50 / 52.5, 1e-9}, {6, 50.0 / 60, 1e-9}, {8.25, 0.606, 0.001},
	}
	for _, tt := range tests {
		got, err := chem.Bleach(1, tt.percent, 50)
		if err != nil || !(math.Abs(1000*float64(got)-tt.ml) <= tt.within) {
			t.Errorf("%g %%: got %g mL, %v, want %g within %g", tt.percent, 1000*float64(got), err, tt.ml, tt.within)
		}
	}
}

func TestBleachRefuses(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		litres, percent, ppm float64
		says                 string
	}{
		{0, 6, 50, "no water"}, {nan, 6, 50, "no water"}, {10, 0.06, 50, "read the label"}, {10, nan, 50, "read the label"},
		{10, 60, 50, "1 to 15"}, {10, 6, 0, "masks take 50"}, {10, 6, 5000, "1 to 1000"}, {10, 6, nan, "1 to 1000"},
	} {
		got, err := chem.Bleach(units.Volume(tt.litres), tt.percent, tt.ppm)
		if err == nil || got != 0 || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%+v: got %v, %v", tt, got, err)
		}
	}
}
