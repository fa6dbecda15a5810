package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestTankRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "nothing", by: officer, body: &bath.Tank{}, id: "missing", say: "nothing about the tank was given"},
		{name: "new and of no size", on: bathless, by: officer, body: &bath.Tank{Name: "Bay 2"}, id: "missing", say: "how much does the tank hold to the mark?"},
		{name: "a pool", by: officer, body: &bath.Tank{VolumeL: 5001}, id: "input", say: "is no tank for baskets"},
		{name: "low mark above the mark", by: officer, body: &bath.Tank{LowL: units.Gallons(60)}, id: "input", say: "the heater's low mark (60.0 gal) must lie below the mark (60.0 gal)"},
		{name: "cold", by: officer, body: &bath.Tank{SetC: p(units.Temperature(19))}, id: "input", say: "68 to 176 °F (20 to 80 °C) are allowed"},
		{name: "set above the hottest", by: officer, body: &bath.Tank{SetC: p(units.Fahrenheit(130.2))}, id: "input", say: "the hottest allowed (130 °F) lies below the set point (130.2 °F)"},
		{name: "half a part", by: officer, body: &bath.Tank{Ratio: 0.5}, id: "input", say: "a ratio of 0.5 to 1"},
		{name: "stronger than the strongest", by: officer, body: &bath.Tank{Ratio: 10}, id: "input", say: "the ratio 10 to 1 is stronger than the strongest allowed, 15 to 1"},
		{name: "more builder than soap", by: officer, body: &bath.Tank{BuilderPct: 101}, id: "input", say: "101 % of builder is not possible: 0 to 100 are allowed, from the data sheet"},
		{name: "builder of less than nothing", by: officer, body: &bath.Tank{BuilderPct: -1}, id: "input", say: "builder, % of -1 is not possible"},
		{name: "soap of no type", by: officer, body: &bath.Tank{Family: "foam"}, id: "input", say: `soap type: "foam" is not one of unknown, hydroxide, metasilicate, soda-ash`},
		{name: "heater of less than nothing", by: officer, body: &bath.Tank{HeaterW: -1}, id: "input", say: "heater of -1 is not possible"},
	})
}

func TestTankIDRefused(t *testing.T) {
	for _, id := range []string{"", "bay 2", "a\x1b[2Jb", strings.Repeat("x", 21), "ma\u202ein"} {
		b := begun(t)
		e := b.draft(officer, b.now, &bath.Tank{VolumeL: 100})
		e.Bath = id
		if err := b.try(e); err == nil {
			t.Errorf("id %q was taken", id)
		}
	}
}

func TestATankRecordedAgainChangesOnlyWhatItCarries(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Tank{Lid: p(false), MaxC: p(units.Temperature(60))})
	got := b.bath().Tank
	if got.VolumeL != units.Gallons(60) || got.Product != "soap" || got.Lid == nil || *got.Lid || got.Max() != 60 {
		t.Errorf("got %+v", got)
	}
	if n := len(b.state.Baths); n != 1 {
		t.Errorf("there are %d baths", n)
	}
}

// The soap type is learned later, from the data sheet, and can be taken back.
func TestATankLearnsItsSoapType(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Tank{Family: "soda-ash", BuilderPct: 8})
	b.log(officer, &bath.Tank{Family: "unknown"})
	if got := b.bath().Tank; got.Family != "unknown" || got.BuilderPct != 8 || got.Product != "soap" {
		t.Errorf("got %+v", got)
	}
}
