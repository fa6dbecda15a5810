package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

// Source: computed outside this project with IAPWS-97: gear at 15 °C into 60 gal
// at 52 °C, the tank left out, and the energy that brings the gear to 52 °C.
func TestDip(t *testing.T) {
	bath := Vessel{Water: units.Gallons(60)}
	largest := 0.0
	for _, tt := range []struct {
		name      string
		gear      Cold
		want, kWh float64
	}{
		{"10 kg steel", Cold{10, Steel, 15}, 51.806, 0.0513889},
		{"10 kg aluminium", Cold{10, Aluminium, 15}, 51.6522, 0.0925},
		{"8 kg plastic", Cold{8, Plastic, 15}, 51.5073, 0.131556},
		{"5 kg wet textile", Cold{5, WetTextile, 15}, 51.5827, 0.111206},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := bath.Dip(52, tt.gear)
			if err != nil {
				t.Fatal(err)
			}
			off := math.Abs(float64(got) - tt.want)
			if largest = max(largest, off); off > 0.001 {
				t.Errorf("got %.4f, want %.4f °C", got, tt.want)
			}
			d, err := bath.Recovery(52, 6000, Room{20, 0.5}, tt.gear)
			if want := tt.kWh / 6; err != nil || math.Abs(d.Hours()-want) > 0.002*want {
				t.Errorf("recovery: got %.5f h, %v, want %.5f h", d.Hours(), err, want)
			}
		})
	}
	t.Logf("largest error %.5f K", largest)
}

// Source: by hand, mc·37 K / (968.5 kJ/K + mc), with 40 kg of steel in the tank.
func TestDipInATankOfSteel(t *testing.T) {
	for _, tt := range []struct {
		gear Cold
		want float64
	}{{Cold{10, Steel, 15}, -0.19}, {Cold{10, Aluminium, 15}, -0.34}, {Cold{8, Plastic, 15}, -0.48}, {Cold{5, WetTextile, 15}, -0.41}} {
		got, err := tank(false, true).Dip(52, tt.gear)
		if err != nil || math.Abs(float64(got)-52-tt.want) > 0.006 {
			t.Errorf("%+v: got %+.3f, %v, want %+.2f K", tt.gear, got-52, err, tt.want)
		}
	}
}

func TestADipLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyVessel(t)
		bath := units.Temperature(rapid.Float64Range(20, 80).Draw(t, "bath"))
		gear := Cold{units.Mass(rapid.Float64Range(0, 500).Draw(t, "mass")), Steel, units.Temperature(rapid.Float64Range(-40, 20).Draw(t, "gear"))}
		once, err := v.Dip(bath, gear)
		if err != nil || once > bath+1e-9 || once < gear.At-1e-9 {
			t.Fatalf("got %v, %v", once, err)
		}
		if twice, _ := v.Dip(bath, gear, gear); twice > once+1e-9 {
			t.Errorf("more gear: %v after %v", twice, once)
		}
	})
}

func TestDipRefusals(t *testing.T) {
	for name, gear := range map[string]Cold{
		"no material":     {Mass: 10, At: 15},
		"mass below zero": {-1, Steel, 15},
		"red hot":         {10, Steel, 500},
		"not measured":    {10, Steel, units.Temperature(math.NaN())},
	} {
		if got, err := tank(false, true).Dip(52, gear); err == nil {
			t.Errorf("%s: got %v and no error", name, got)
		}
		if got, err := tank(false, true).Recovery(52, 6000, indoors, gear); err == nil {
			t.Errorf("%s: got %v and no error", name, got)
		}
	}
}
