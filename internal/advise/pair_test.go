package advise_test

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: testdata/chem/temperature_shift_by_family.csv, dpH_per_K_at_t: no soap
// moves by more than 0.029 a kelvin. A cooled cup typed as 11.90 for 10.90 gives
// no slope, and readings are restated by what baths do.
func TestAPairThatCannotBeGivesNoSlope(t *testing.T) {
	for cooled, how := range map[units.PH]string{
		10.60: "this bath's own slope",
		11.20: "this bath's own slope",
		11.90: "what most baths do: the soap type is not known",
		8.60:  "what most baths do: the soap type is not known",
	} {
		b := started().add("2 12:00", &bath.Reading{PH: cooled, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true}).
			add("3 09:00", sample(10.20, 40, "M1"))
		if got := b.look(t, "3 09:05").PH.Latest.How; got != how {
			t.Errorf("cooled %.2f: restated by %q, want %q", float64(cooled), got, how)
		}
	}
}

// A hair above the first reading is no drop of minus nothing.
func TestNoDropIsMinusNothing(t *testing.T) {
	b := paired().add("3 09:00", sample(10.1002, 50, "M1"))
	if got := b.look(t, "3 09:05").DropSay(); got != "down 0.00, act at 0.50" {
		t.Errorf("got %q", got)
	}
}
