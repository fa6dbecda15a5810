package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Every figure in Next that somebody reckoned says where it comes from.
func TestFiguresSayWhereTheyComeFrom(t *testing.T) {
	topped := inService().add("4 09:00", &bath.Water{VolumeL: units.Gallons(1), Cause: bath.CauseEvaporation})
	tests := []struct {
		id   string
		book book
		now  string
		want string
	}{
		{"mark", topped, "7 09:00", "evaporation"},
		{"limit", inService().add("9 08:00", hot(9.82)), "9 09:00", "good to ±"},
		{"limit-date", inService().add("9 08:00", hot(9.94)).add("16 08:00", hot(9.80)), "16 09:00", "a day"},
		{"order-soap", inService().add("2 13:00", &bath.Stock{What: bath.StockSoap, OnHand: new(1.0)}), "3 09:00", "counted"},
		{"heat-by", inService().add("2 14:00", &bath.Setting{HotBy: "07:00"}).add("2 14:00", &bath.Temp{BathC: 48, Heat: new(false)}), "4 05:00", "heater gives"},
	}
	for _, tt := range tests {
		t.Run(tt.id, func(t *testing.T) {
			for _, a := range tt.book.look(t, tt.now).Next {
				if a.ID == tt.id {
					if got := strings.Join(a.From, "; "); !strings.Contains(got, tt.want) {
						t.Errorf("%q comes from %q, want it to say %q", a.Say, got, tt.want)
					}
					return
				}
			}
			t.Errorf("no such action at %s", tt.now)
		})
	}
}

// 70 gal of water from about 20 °C to 50 °C with 6 kW takes about 1.5 h: 265 L
// times 4.18 kJ/(kg·K) times 30 K by 6 kW, with the loss on top (energy balance).
func TestHeaterIsSwitchedOnInTime(t *testing.T) {
	cold := inService().
		add("2 14:00", &bath.Setting{HotBy: "07:00"}).
		add("2 14:00", &bath.Temp{BathC: 48, Heat: new(false)}).
		add("8 20:00", &bath.Temp{BathC: 21, Heat: new(false)})
	var got advise.Action
	for _, a := range cold.look(t, "9 03:30").Next {
		if a.ID == "heat-by" {
			got = a
		}
	}
	if early := at("9 07:00").Sub(got.Due).Hours(); early < 1.5 || early > 2.5 {
		t.Errorf("%q is %.2f h before it is wanted, want 1.5 to 2.5", got.Say, early)
	}
	for name, b := range map[string]book{
		"too early":        cold,
		"kept hot":         cold.add("8 20:01", &bath.Setting{KeptHot: new(true)}),
		"hot already":      cold.add("9 03:00", &bath.Temp{BathC: 50}),
		"no time is named": inService(),
	} {
		now := "9 03:30"
		if name == "too early" {
			now = "8 21:00"
		}
		for _, a := range b.look(t, now).Next {
			if a.ID == "heat-by" {
				t.Errorf("%s: got %q", name, a.Say)
			}
		}
	}
}
