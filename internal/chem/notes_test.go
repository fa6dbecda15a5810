package chem

import (
	"testing"

	"bathside/internal/units"
)

// From the plan of this model, computed: 10 % lost raises the pH by 0.03 to 0.045
// where nothing buffers it, by -0.002 where something does.
func TestEvaporated(t *testing.T) {
	tests := []struct {
		family    string
		low, high units.PH
		say       string
	}{
		{"hydroxide", 0.03, 0.046, "with 10 % of its water gone it reads up to 0.05 high: fill it to the mark, mix, then read"},
		{"buffered-carbonate", -0.005, 0.001, ""},
		{Unknown, 0.03, 0.046, "with 10 % of its water gone it reads up to 0.05 high: fill it to the mark, mix, then read"},
	}
	for _, tt := range tests {
		rise, say, err := Evaporated(family(tt.family, 0), Sample{10.10, 50}, 0.10)
		if err != nil || rise < tt.low || rise > tt.high || say != tt.say {
			t.Errorf("%s: got %+.4f, %q, %v; want %g to %g, %q", tt.family, float64(rise), say, err, float64(tt.low), float64(tt.high), tt.say)
		}
	}
	if _, _, err := Evaporated(Family{}, Sample{10, 50}, 0.7); err == nil {
		t.Error("a bath with 70 % gone is reckoned with")
	}
}

// Source: 120 mg/L as CaCO3, from food-sanitation texts; carbonate and silicate
// fall out with calcium, hydroxide and borate do not.
func TestHardWater(t *testing.T) {
	tests := []struct {
		family   string
		hardness float64
		say      bool
	}{
		{"soda-ash", 120, false}, {"soda-ash", 121, true}, {"silicate", 200, true}, {"mixed", 200, true},
		{Unknown, 200, true}, {"hydroxide", 200, false}, {"borate", 200, false},
	}
	for _, tt := range tests {
		if got := HardWater(family(tt.family, 0), tt.hardness); (got != "") != tt.say {
			t.Errorf("%s at %g mg/L: %q", tt.family, tt.hardness, got)
		}
	}
}
