package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestFillRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "second fill", body: &bath.Fill{VolumeL: units.Gallons(60)}, id: "fill-open", say: "fill 1 is still open since Mon 2 Mar 07:06: log its drain first, then the new fill"},
		{name: "nothing", on: newBook, body: &bath.Fill{}, id: "missing", say: "Give the volume, like 64gal"},
		{name: "beyond the mark", on: newBook, body: &bath.Fill{VolumeL: units.Gallons(60.4)}, id: "too-full", say: "60.4 gal is beyond the mark: this tank holds 60.0 gal"},
		{name: "litres typed as gallons", on: newBook, body: &bath.Fill{VolumeL: units.Gallons(227)}, id: "too-full", say: "227.0 gal is beyond the mark"},
		{name: "heater dry", on: newBook, body: &bath.Fill{VolumeL: units.Gallons(47)}, id: "too-low", say: "47.0 gal leaves the heater dry: it needs 48.0 gal"},
		{name: "ice", on: newBook, body: &bath.Fill{VolumeL: units.Gallons(60), WaterC: p(units.Temperature(0))}, id: "not-liquid", say: "water of 32 °F is not that of a bath of water"},
		{name: "steam", on: newBook, body: &bath.Fill{VolumeL: units.Gallons(60), WaterC: p(units.Temperature(100))}, id: "not-liquid", say: "between 32 and 212 °F (0 and 100 °C)"},
		{name: "before the last drain", on: drained, ago: 2 * time.Minute, body: &bath.Fill{VolumeL: units.Gallons(60)}, id: "order", say: "is before the last drain, Mon 2 Mar 07:10: a fill comes after it"},
	})
}

func drained(t testing.TB) *book {
	b := begun(t)
	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	return b
}

func TestFillMayStandHalfAPercentOverTheMark(t *testing.T) {
	newBook(t).log(crew, &bath.Fill{VolumeL: units.Gallons(60.3)})
}

func TestFillsAreCounted(t *testing.T) {
	b := begun(t)
	for range 4 {
		b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
		b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	}
	if l := b.life(); l.Number != 5 {
		t.Errorf("got fill %d, want 5", l.Number)
	}
	if past := b.bath().Past; len(past) != 3 || past[0].Number != 1 || past[2].Number != 3 || past[0].Readings != 1 || past[1].Readings != 0 {
		t.Errorf("got %+v", past)
	}
}
