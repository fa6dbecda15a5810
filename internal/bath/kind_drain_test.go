package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestDrainRefused(t *testing.T) {
	gal := units.Gallons(60)
	checkRefusals(t, []refusal{
		{name: "nothing", by: officer, body: &bath.Drain{Route: bath.RouteSewer}, id: "input", say: "this tank holds 60.0 gal to the mark"},
		{name: "more than the tank", by: officer, body: &bath.Drain{VolumeL: units.Gallons(67), Route: bath.RouteSewer}, id: "input", say: "67.0 gal drained is not possible"},
		{name: "no route", by: officer, body: &bath.Drain{VolumeL: gal}, id: "missing", say: "where to is missing: give one of sewer, hauler, hold"},
		{name: "pH 15", by: officer, body: &bath.Drain{VolumeL: gal, PH: p(units.PH(15)), Route: bath.RouteSewer}, id: "input", say: "a pH of 15.00 is outside 0 to 14"},
		{name: "both temperatures wrong", by: officer, body: &bath.Drain{VolumeL: gal, SampleC: p(units.Temperature(-1)), LiquidC: p(units.Temperature(101)), Route: bath.RouteSewer}, id: "not-liquid", say: "a sample of 30 °F"},
		{name: "liquid", by: officer, body: &bath.Drain{VolumeL: gal, LiquidC: p(units.Temperature(101)), Route: bath.RouteSewer}, id: "not-liquid", say: "a bath of 214 °F"},
		{name: "before the fill", by: officer, ago: time.Hour, body: &bath.Drain{VolumeL: gal, Route: bath.RouteSewer}, id: "order", say: "is before the open fill, which began Mon 2 Mar 07:06"},
		{name: "before the last drain", on: drained, by: officer, ago: 2 * time.Minute, body: &bath.Drain{VolumeL: gal, Route: bath.RouteSewer}, id: "order", say: "is before the last drain, Mon 2 Mar 07:10 (line 10), and the tank has stood empty since"},
	})
}

// TestDrainIsKeptAndMarked: what was drained can always be written down.
func TestDrainIsKeptAndMarked(t *testing.T) {
	room := units.Fahrenheit(77)
	// sewer is a drain that nothing speaks against.
	sewer := func(change func(*bath.Drain)) *bath.Drain {
		d := &bath.Drain{VolumeL: units.Gallons(60), PH: p(units.PH(9.4)), SampleC: &room, Route: bath.RouteSewer}
		change(d)
		return d
	}
	as := func(ph units.PH) *bath.Drain { return sewer(func(d *bath.Drain) { d.PH = &ph }) }
	heated := func(on ...bool) func(testing.TB) *book {
		return func(t testing.TB) *book {
			b := begun(t)
			for _, is := range on {
				b.log(crew, &bath.Temp{BathC: 50, Heat: p(is)})
			}
			return b
		}
	}
	tests := []struct {
		name string
		on   func(testing.TB) *book
		by   string
		body *bath.Drain
		want []string
	}{
		{"lawful", begun, officer, as(9.4), nil},
		{"by crew", begun, crew, as(9.4), []string{"Lee Holm is crew: draining is for a gear officer"}},
		{"heater on", heated(true), officer, as(9.4), []string{"the heater was last logged as on"}},
		{"heater off again", heated(true, false), officer, as(9.4), nil},
		{"no fill", newBook, officer, as(9.4), []string{"no fill was open"}},
		{"no permission", sewerless, officer, as(9.4), []string{"no permission for the sewer is on file"}},
		{"no permission, hauled", sewerless, officer, sewer(func(d *bath.Drain) { d.Route = bath.RouteHauler }), nil},
		{"no pH", begun, officer, sewer(func(d *bath.Drain) { d.PH = nil }), []string{"no pH of a cooled sample was taken"}},
		{"no sample temperature", begun, officer, sewer(func(d *bath.Drain) { d.SampleC = nil }), []string{"no pH of a cooled sample was taken"}},
		// Corrosive waste: aqueous, pH 2 or less, 12.5 or more. 40 CFR 261.22(a)(1).
		{"12.49", begun, officer, as(12.49), nil},
		{"12.5", begun, officer, as(12.5), []string{"pH 12.50 is 12.5 or above: possible corrosive waste (40 CFR 261.22)"}},
		// No discharge with a pH below 5.0 to a public sewer. 40 CFR 403.5(b)(2).
		{"5.0", begun, officer, as(5), nil},
		{"4.99", begun, officer, as(4.99), []string{"pH 4.99 is below 5.0, the federal floor for a sewer (40 CFR 403.5(b))"}},
		{"contaminated, to the sewer", contaminated, officer, as(9.4), []string{"red-tagged as contaminated: it is held until the authority has answered"}},
		{"contaminated, held", contaminated, officer, sewer(func(d *bath.Drain) { d.Route = bath.RouteHold }), nil},
		{"all at once", heated(true), crew, as(13), []string{"heater", "crew", "12.5"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := tt.on(t)
			b.log(tt.by, tt.body)
			checkOutside(t, tt.body.Outside, tt.want...)
			if _, open := b.bath().Life(); open {
				t.Error("the fill is still open")
			}
		})
	}
}

func sewerless(t testing.TB) *book {
	b := blank(t)
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer})
	b.log(officer, &bath.Tank{VolumeL: units.Gallons(60)})
	b.log(officer, &bath.Fill{VolumeL: units.Gallons(60)})
	return b
}

func contaminated(t testing.TB) *book {
	b := begun(t)
	b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "a pack with asbestos dust"})
	return b
}
