package heat

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/units"
)

// Source: heatup_times.csv of the reference, which gives 70.1 °C as the rest of
// the open, bare bath at 2 kW, and above 80 °C at 3 kW.
func TestAWeakHeaterHoldsTheBathAt70(t *testing.T) {
	if got := tank(false, false).settles(2000, indoors); math.Abs(float64(got)-70.1) > 0.1 {
		t.Errorf("2 kW: got %.2f, want 70.1 °C", got)
	}
	if got := tank(false, false).settles(3000, indoors); math.Abs(float64(got)-80) > 1e-6 {
		t.Errorf("3 kW: got %.2f, want the end of the model, 80 °C", got)
	}
}

func TestTooWeak(t *testing.T) {
	tests := []struct {
		name           string
		lid, insulated bool
		heater         units.Power
		sys            units.System
		want           string
	}{
		{"open, bare", false, false, 2000, units.SI,
			"a 2 kW heater holds this open, bare bath at about 70 °C, not 75 °C: shut the lid, or set it lower"},
		{"open, bare, in °F", false, false, 2000, units.US,
			"a 2 kW heater holds this open, bare bath at about 158 °F, not 167 °F: shut the lid, or set it lower"},
		{"open, insulated", false, true, 1000, units.SI,
			"a 1 kW heater holds this open, insulated bath at about 65 °C, not 75 °C: shut the lid, or set it lower"},
		{"covered, bare", true, false, 1000, units.SI,
			"a 1 kW heater holds this covered, bare bath at about 70.5 °C, not 75 °C: insulate the tank, or set it lower"},
		{"covered, insulated", true, true, 100, units.SI,
			"a 100 W heater holds this covered, insulated bath at about 45 °C, not 75 °C: check the heater's power, or set it lower"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tank(tt.lid, tt.insulated).WarmUp(15, 75, tt.heater, indoors)
			var weak *TooWeak
			if !errors.As(err, &weak) {
				t.Fatalf("got %v, want a *TooWeak", err)
			}
			if diff := cmp.Diff(tt.want, weak.In(tt.sys)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	v := tank(false, false)
	nan := math.NaN()
	tests := []struct {
		name     string
		v        Vessel
		from, to units.Temperature
		heater   units.Power
		room     Room
		want     string
	}{
		{"steam", v, 15, 81, 6000, indoors,
			"81 °C is no temperature of a bath: give one from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"ice", v, -1, 52, 6000, indoors,
			"-1 °C is no temperature of a bath: give one from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"no reading", v, units.Temperature(nan), 52, 6000, indoors,
			"not known is no temperature of a bath: give one from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"heater off", v, 15, 52, 0, indoors,
			"a heater of 0 W warms nothing: give its power, as in 6kW"},
		{"heater backwards", v, 15, 52, -6000, indoors,
			"a heater of -6 kW warms nothing: give its power, as in 6kW"},
		{"heater without end", v, 15, 52, units.Power(math.Inf(1)), indoors,
			"a heater of not known warms nothing: give its power, as in 6kW"},
		{"empty", Vessel{}, 15, 52, 6000, indoors,
			"a bath of 0.0 L is none we can reckon with: give its volume to the mark, 1 L to 20000 L (5280 gal)"},
		{"a lake", Vessel{Water: 50000}, 15, 52, 6000, indoors,
			"a bath of 50000.0 L is none we can reckon with: give its volume to the mark, 1 L to 20000 L (5280 gal)"},
		{"steel below zero", Vessel{Water: 200, Steel: -1}, 15, 52, 6000, indoors,
			"a tank of -1.0 kg is none we can reckon with: give the steel in it, 0 to 20000 kg"},
		{"walls without end", Vessel{Water: 200, Walls: units.Area(math.Inf(1))}, 15, 52, 6000, indoors,
			"a surface or wall of not known is none we can reckon with: give 0 to 200 m²"},
		{"humidity in per cent", v, 15, 52, 6000, Room{20, 50},
			"a humidity of 50 is not within 0 to 1: write 0.5 for 50 %"},
		{"oven", v, 15, 52, 6000, Room{70, 0.5},
			"70 °C is no temperature of a room: give one from -40 °C to 60 °C (-40 °F to 140 °F)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.v.WarmUp(tt.from, tt.to, tt.heater, tt.room)
			if err == nil {
				t.Fatal("got no error")
			}
			if diff := cmp.Diff(tt.want, err.Error()); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestTooWarm(t *testing.T) {
	_, err := tank(true, false).CoolTo(52, 15, indoors)
	var warm *TooWarm
	if !errors.As(err, &warm) {
		t.Fatalf("got %v, want a *TooWarm", err)
	}
	const want = "this bath cools to about 20 °C in this room, not to 15 °C: add cold water, or cool the room"
	if diff := cmp.Diff(want, err.Error()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestCoolToRefusesSteam(t *testing.T) {
	_, err := tank(false, false).CoolTo(90, 40, indoors)
	const want = "90 °C is no temperature of a bath: give one from 0 °C to 80 °C (32 °F to 176 °F)"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestRefusedFiguresGiveNoNumber(t *testing.T) {
	v := tank(false, false)
	for name, got := range map[string]float64{
		"loss above 80 °C":    float64(v.Loss(81, indoors)),
		"loss of no water":    float64(Vessel{}.Loss(52, indoors)),
		"after from 81 °C":    float64(v.After(81, time.Hour, indoors)),
		"after a time before": float64(v.After(52, -time.Hour, indoors)),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: got %g, want NaN", name, got)
		}
	}
}

func TestARefusalNeverShowsTwoEqualNumbers(t *testing.T) {
	v := tank(false, false)
	to := v.settles(2000, indoors) + 1e-4
	_, err := v.WarmUp(15, to, 2000, indoors)
	const want = "a 2 kW heater holds this open, bare bath at about 70 °C, not 70.1 °C: shut the lid, or set it lower"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}
