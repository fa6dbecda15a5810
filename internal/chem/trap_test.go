package chem

import (
	"strings"
	"testing"

	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
)

// Source: check_values.csv, C3: a perfect electrode, buffers at 40 °C told as
// 6.86 and 10.01.
func TestBottleTrap(t *testing.T) {
	want := checkValues(t, "C3")
	slope, reads, err := bottleTrap(Buffers[1], Buffers[4], 40, 10.10)
	if err != nil {
		t.Fatal(err)
	}
	wantNear(t, "slope, %", slope, want[0], 0.01)
	wantNear(t, "10.10 reads", float64(reads), want[1], 0.001)
}

func TestEveryBottleHasItsNumber(t *testing.T) {
	for _, b := range Buffers {
		wantNear(t, b.Name, float64(b.bottle()), float64(b.Nominal()), 0.01)
	}
}

func TestTrapsOfACalibration(t *testing.T) {
	meter := func(slope float64, at units.Temperature) Calibration { return must(FromMeter(slope, 0, at)) }
	const (
		at40 = "at 40 °C a meter that is told 6.86 and 10.01, as on the bottles, shows 96.9 % with a perfect electrode, and a true 10.10 as 10.23: make sure that it was told the buffers' values at their temperature; the slope would then be 100.0 %"
		at10 = "at 10 °C a meter that is told 6.86 and 10.01, as on the bottles, shows 103.4 % with a perfect electrode, and a true 10.10 as 9.93: make sure that it was told the buffers' values at their temperature; the slope would then be 100.1 %"
		both = "both buffers are written as 25 °C and the bath is at 50 °C: make sure that they were at room temperature and measured, not read from the label"
		inMV = "58.2 looks like a slope in mV for one pH: at 25 °C that is 98.4 %; see which of the two the meter shows"
	)
	tests := []struct {
		name string
		c    Calibration
		bath units.Temperature
		want []string
	}{
		{"warm buffers told the bottles", meter(96.9, 40), 50, []string{at40}},
		{"cold buffers told the bottles", meter(103.5, 10), 50, []string{at10}},
		{"warm buffers, perfect", meter(100, 40), 50, nil},
		{"warm buffers, old electrode", meter(91, 40), 50, nil},
		{"buffers at room temperature", meter(96.9, 25), 50, nil},
		{"beyond the table", meter(96.9, 55), 50, nil},
		{"true millivolts", must(Calibrate(points("7.00@40C=0mV", "carbonate@40C=-174mV"))), 50, nil},
		{"exactly 25", twoBuffers(), 50, []string{both}},
		{"exactly 77 °F", must(Calibrate(points("7.00@77F=0mV", "carbonate@77F=-174mV"))), 50, []string{both}},
		{"all three", must(Calibrate(points("4.01@25C=175mV", "7.00@25C=0mV", "carbonate@25C=-175mV"))), 50,
			[]string{strings.Replace(both, "both", "all three", 1)}},
		{"one measured", must(Calibrate(points("7.00@25C=0mV", "carbonate@24.5C=-174mV"))), 50, nil},
		{"cold bath", twoBuffers(), 30, nil},
		{"bath not known", twoBuffers(), 0, nil},
		{"mV for percent", meter(58.2, 25), 50, []string{inMV}},
		{"a dead electrode", meter(40, 25), 50, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.c.Judge(tt.bath)
			if diff := cmp.Diff(tt.want, got.Notes); diff != "" {
				t.Errorf("notes (-want +got):\n%s", diff)
			}
			if plain := tt.c.Judge(0); got.Grade != plain.Grade || got.Say != plain.Say {
				t.Errorf("a note changes %s to %s", plain.Say, got.Say)
			}
		})
	}
}

// Source: IUPAC 2002: carbonate is 9.889 at 40 °C and 9.828 at 50 °C; without
// compensation 7 + 2.828 × 323.15/298.15 = 10.065.
func TestTrapsOfADip(t *testing.T) {
	const (
		bottle = "10.01 is what carbonate is at 25 °C, and at 40 °C it is 9.89: make sure that the meter was not set to the bottles' numbers in warm buffer"
		noATC  = "10.07 is what a meter without temperature compensation reads in carbonate at 50 °C: see that its temperature probe is in, or tell it the temperature"
	)
	both := []string{bottle, strings.NewReplacer("10.07", "10.03", "50 °C", "40 °C").Replace(noATC)}
	tests := []struct {
		dip  string
		want []string
	}{
		{"carbonate@40C=10.01", both},
		{"carbonate@40C=9.98", []string{bottle}},
		{"carbonate@50C=10.07", []string{noATC}},
		{"carbonate@50C=9.83", nil},
		{"carbonate@50C=9.93", nil},
		{"carbonate@25C=10.01", nil},
		{"7.00@50C=7.00", nil}, // 6.96 there: too near to tell
	}
	for _, tt := range tests {
		t.Run(tt.dip, func(t *testing.T) {
			check := must(ParseCheck(tt.dip))
			if diff := cmp.Diff(tt.want, Dip(check).Notes); diff != "" {
				t.Errorf("notes of a dip (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(tt.want, must(FromMeter(98, 0, 25)).Judge(50, check).Notes); diff != "" {
				t.Errorf("notes of a calibration (-want +got):\n%s", diff)
			}
		})
	}
}
