package heat

import (
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: water_props.csv, the formulation IAPWS-97.
func TestWaterKeepsToItsBounds(t *testing.T) {
	tests := []struct {
		column string
		got    func(units.Temperature) float64
		scale  float64 // from the column to our unit
		within float64 // of the value
	}{
		{"rho_kg_m3", Density, 1, 0.002e-2},
		{"cp_kJ_kgK", SpecificHeat, 1000, 0.04e-2},
		{"psat_kPa", VapourPressure, 1, 0.08e-2},
	}
	for _, tt := range tests {
		t.Run(tt.column, func(t *testing.T) {
			for _, r := range readTable(t, "water_props.csv") {
				got, want := tt.got(units.Temperature(r["T_C"])), r[tt.column]*tt.scale
				if math.Abs(got-want) > tt.within*want {
					t.Errorf("%g °C: got %g, want %g within %g %%", r["T_C"], got, want, 100*tt.within)
				}
			}
		})
	}
}

func TestHeatOfEvaporationKeepsToItsBound(t *testing.T) {
	for _, r := range readTable(t, "water_props.csv") {
		got, want := HeatOfEvaporation(units.Temperature(r["T_C"])), 1000*r["hfg_kJ_kg"]
		if math.Abs(got-want) > 300 {
			t.Errorf("%g °C: got %g, want %g within 300 J/kg", r["T_C"], got, want)
		}
	}
}
