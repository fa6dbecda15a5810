package heat

import (
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: evaporation.csv, each formula by itself and their mean, from 35 to
// 60 °C in five rooms.
func TestEvaporationFormulas(t *testing.T) {
	for _, r := range readTable(t, "evaporation.csv") {
		bath, room := units.Temperature(r["Tw_C"]), Room{units.Temperature(r["Ta_C"]), r["RH"]}
		for column, got := range map[string]float64{
			"ashrae": ashrae(saturated(bath), room.air()),
			"shah":   shah(saturated(bath), room.air()),
			"mean":   evaporation(bath, room),
		} {
			if want := r[column]; math.Abs(got-want) > 0.002*want {
				t.Errorf("%s, %g °C in %v: got %.4f, want %.4f kg/(m²·h)", column, bath, room, got, want)
			}
		}
	}
}

// Source: The Engineering Toolbox, "Heat Loss from Open Water Tanks", loss by
// evaporation in air at 60 °F, in Btu/(ft²·h). It gives no humidity; 50 % is
// ours. At 90 °F both formulas lie above it.
func TestEvaporationFromOpenTanks(t *testing.T) {
	const btu = 3.154591 // W/m² in one Btu/(ft²·h)
	room := Room{Air: units.Fahrenheit(60), RH: 0.5}
	for _, tt := range []struct{ bathF, want, low, high float64 }{
		{90, 80, 0, 0.40},
		{100, 160, 0.12, 0.12}, {110, 240, 0.12, 0.12}, {120, 360, 0.12, 0.12},
		{130, 480, 0.12, 0.12}, {140, 660, 0.12, 0.12}, {150, 860, 0.12, 0.12},
	} {
		bath := units.Fahrenheit(tt.bathF)
		got := evaporation(bath, room) / 3600 * HeatOfEvaporation(bath) / btu
		t.Logf("%g °F: %+.1f %%", tt.bathF, 100*(got/tt.want-1))
		if got < tt.want*(1-tt.low) || got > tt.want*(1+tt.high) {
			t.Errorf("%g °F: got %.0f, want %.0f Btu/(ft²·h) within -%g to +%g %%", tt.bathF, got, tt.want, 100*tt.low, 100*tt.high)
		}
	}
}

// Source: Shah 2014, SE-14-001, as the details are remembered: the factor is 35,
// and 40 where the air over the water is lighter by no more than 0.02 kg/m³.
func TestShahHasASlowAirFactor(t *testing.T) {
	dry := indoors.air()
	bath := units.Temperature(20)
	for dry.dryDensity()-saturated(bath).dryDensity() <= 0.02 {
		bath += 0.001
	}
	slow, fast := shah(saturated(bath-0.001), dry), shah(saturated(bath), dry)
	if got := slow / fast; math.Abs(got-40.0/35) > 0.001 {
		t.Errorf("at %.3f °C the vapour falls by %.4f, want 40/35", bath, got)
	}
}

func TestDewIsLeftOut(t *testing.T) {
	if got := evaporation(5, Room{Air: 35, RH: 1}); got != 0 {
		t.Errorf("got %g, want 0 kg/(m²·h)", got)
	}
}

// tank is the bath of the reference tables.
func tank(lid, insulated bool) Vessel {
	return Vessel{Water: 227.125, Steel: 40, Surface: 0.30, Walls: 1.9, Lid: lid, Insulated: insulated}
}

var indoors = Room{Air: 20, RH: 0.5}

// Source: computed outside this project with numpy and IAPWS-97, to the watt.
func TestLossAt52(t *testing.T) {
	tests := []struct {
		name               string
		tank               Vessel
		vapour, top, sides float64
	}{
		{"open, insulated", tank(false, true), 365, 108, 73},
		{"open, bare", tank(false, false), 365, 108, 547},
		{"covered, insulated", tank(true, true), 36, 24, 73},
		{"covered, bare", tank(true, false), 36, 24, 547},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := [3]float64{
				math.Round(tt.tank.vapour(52, indoors)),
				math.Round(tt.tank.top(52, indoors)),
				math.Round(tt.tank.sides(52, indoors)),
			}
			if want := [3]float64{tt.vapour, tt.top, tt.sides}; got != want {
				t.Errorf("vapour, top, sides: got %v, want %v W", got, want)
			}
			if got, want := float64(tt.tank.Loss(52, indoors)), tt.vapour+tt.top+tt.sides; math.Abs(got-want) > 1.5 {
				t.Errorf("in all: got %.1f, want %g W", got, want)
			}
		})
	}
}

func TestARoomWarmsAColderBath(t *testing.T) {
	if got := tank(true, false).Loss(5, indoors); got >= 0 {
		t.Errorf("got a loss of %g W, want a gain", got)
	}
}

// Source: the box of 0.50 by 0.60 m by geometry: 227 L stand 0.757 m deep in it.
func TestNewVesselIsABox(t *testing.T) {
	v := NewVessel(units.Gallons(60))
	depth := float64(v.Water) / 1000 / (0.50 * 0.60)
	walls := 2*(0.50+0.60)*depth + 0.50*0.60
	if v.Surface != 0.30 || math.Abs(float64(v.Walls)-walls) > 0.1 {
		t.Errorf("surface %g, walls %g m²: want 0.30 and about %.2f", v.Surface, v.Walls, walls)
	}
	if half := NewVessel(v.Water / 8); math.Abs(float64(half.Surface/v.Surface)-0.25) > 1e-12 {
		t.Errorf("at half the size the surface is %g of the whole, want a quarter", half.Surface/v.Surface)
	}
}
