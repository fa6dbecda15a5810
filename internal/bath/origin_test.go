package bath_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Each value of the set-up stands by the last line that gave it one; a line
// about other values leaves it its own.
func TestSetByIsTheLastLineThatSaidSo(t *testing.T) {
	var lines []bath.Entry
	add := func(by, id string, body bath.Body) {
		n := len(lines)
		when := monday.AddDate(0, 0, n)
		lines = append(lines, bath.Entry{Seq: uint64(n + 1), At: when, Logged: when, By: by, Bath: id, Body: body})
	}
	add("Ana Reyes", "", &bath.Member{Name: "Ana Reyes", Role: bath.Officer})
	add("Ana Reyes", "main", &bath.Tank{VolumeL: units.Gallons(70), Ratio: 35})
	add("Ana Reyes", "", &bath.Setting{Limit: new(0.4), FilterTime: units.Minutes(45)})
	add("Kim Sato", "", &bath.Setting{Limit: new(0.6)})
	add("Kim Sato", "MAIN", &bath.Tank{Ratio: 40})
	add("Kim Sato", "main", &bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "mask", Count: 6}}})
	s, err := bath.Fold(lines)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, about, field string
		kind               bath.Kind
		want               uint64 // the line; 0 is nobody's
	}{
		{"changed since", "", "limit", "setting", 4},
		{"left as it was", "", "filter-run", "setting", 3},
		{"nobody's", "", "per-10c", "setting", 0},
		{"a bath however it is spelt", "main", "ratio", "tank", 5},
		{"the tank's other values", "main", "volume", "tank", 2},
		{"another bath's", "drill", "ratio", "tank", 0},
		{"a member", "Ana Reyes", "role", "member", 1},
		{"a basket of its bath", bath.BasketKey("main", "deep"), "holds", "basket", 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := s.SetBy(c.kind, c.about, c.field)
			if ok != (c.want > 0) || got.Seq != c.want {
				t.Errorf("got %+v, %t; want line %d", got, ok, c.want)
			}
			if ok && got.By != lines[got.Seq-1].By {
				t.Errorf("by %s, want %s", got.By, lines[got.Seq-1].By)
			}
		})
	}
}

// What a station gets that has set nothing is what its settings and tank say
// they do.
func TestUsualIsWhatHolds(t *testing.T) {
	setting, _ := bath.SpecOf("setting")
	tank, _ := bath.SpecOf("tank")
	var s bath.Setting
	var v bath.Tank
	usual, vessel := setting.Usual().(*bath.Setting), tank.Usual().(*bath.Tank)
	got := []any{*usual.Limit, *usual.PerTenC, usual.FilterTime, usual.CartridgeS, usual.InWater(), vessel.HeaterW, *vessel.SetC, *vessel.MaxC}
	want := []any{s.DropLimit(), s.Lengthen(), s.FilterRun(), s.CartridgeLife(), s.InWater(), v.Heater(), v.Set(), v.Max()}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-holds +usual:\n%s", diff)
	}
	st := bath.NewState()
	if zone, sys := st.Zone().String(), st.System().String(); zone != usual.Zone || sys != usual.Units {
		t.Errorf("a new station is in %s and %s, its usual values are %s and %s", zone, sys, usual.Zone, usual.Units)
	}
}
