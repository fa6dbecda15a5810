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
	as := func(ph units.PH) *bath.Drain { return sewer(func(d *bath.Drain) { d.PH = &ph }) }
	by := func(change func(*bath.Drain)) *bath.Drain { return sewer(change) }
	heated := func(on ...bool) func(testing.TB) *book {
		return func(t testing.TB) *book {
			b := permitted(t)
			for _, is := range on {
				b.log(crew, &bath.Temp{BathC: 50, Heat: p(is)})
			}
			return b
		}
	}
	foul := "red-tagged as contaminated: the liquid is held until the authority has answered, and nobody is named who did"
	tests := []struct {
		name string
		on   func(testing.TB) *book
		by   string
		body *bath.Drain
		want []string
	}{
		{"lawful", permitted, officer, as(9.4), nil},
		{"by crew", permitted, crew, as(9.4), []string{"Lee Holm is crew: draining is for a gear officer"}},
		{"heater on", heated(true), officer, as(9.4), []string{"the heater was last logged as on"}},
		{"heater off again", heated(true, false), officer, as(9.4), nil},
		{"not locked out", permitted, officer, by(func(d *bath.Drain) { d.Locked = p(false) }), []string{"heater and ultrasound were not locked out"}},
		{"locked out", permitted, officer, by(func(d *bath.Drain) { d.Locked = p(true) }), nil},
		{"no fill", func(t testing.TB) *book { b := newBook(t); b.log(officer, permit()); return b }, officer, as(9.4), []string{"no fill was open"}},
		{"no permission", sewerless, officer, as(9.4), []string{"no permission for the sewer is on file"}},
		{"a permission without its limits", begun, officer, as(9.4), []string{"permit 12 is on file without its limits"}},
		{"no permission, hauled", sewerless, officer, by(func(d *bath.Drain) { d.Route = bath.RouteHauler }), nil},
		{"no permission, held", sewerless, officer, by(func(d *bath.Drain) { d.Route = bath.RouteHold }), nil},
		{"no pH", permitted, officer, by(func(d *bath.Drain) { d.PH = nil }), []string{"no pH of a cooled sample was taken"}},
		{"no sample temperature", permitted, officer, by(func(d *bath.Drain) { d.SampleC = nil }), []string{"no pH of a cooled sample was taken"}},
		{"contaminated, to the sewer", contaminated, officer, as(9.4), []string{"red-tagged as contaminated: the liquid never goes to the sewer"}},
		{"contaminated, to the sewer, somebody said so", contaminated, officer, by(func(d *bath.Drain) { d.Allowed = "R. Quill" }), []string{"red-tagged as contaminated: the liquid never goes to the sewer"}},
		{"contaminated, hauled", contaminated, officer, by(func(d *bath.Drain) { d.Route = bath.RouteHauler }), []string{foul}},
		{"contaminated, hauled as somebody said", contaminated, officer, by(func(d *bath.Drain) { d.Route, d.Allowed = bath.RouteHauler, "R. Quill" }), nil},
		{"contaminated, held", contaminated, officer, by(func(d *bath.Drain) { d.Route = bath.RouteHold }), nil},
		{"all at once", heated(true), crew, as(13), []string{"heater", "crew", "12.5", "the most by permit 12"}},
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

// TestThinnedToPass: water that goes in after the drain was signed makes no
// sample fit for the sewer. Source: 40 CFR 403.6(d), from memory; and a town's
// own rule, Milan (Ohio): deliberate dilution to meet limits is not acceptable.
func TestThinnedToPass(t *testing.T) {
	signed := func(choice string) *bath.Decision {
		return &bath.Decision{Choice: choice, Advice: choice, Evidence: &bath.Evidence{}}
	}
	poured := &bath.Water{VolumeL: units.Gallons(5), Cause: bath.CauseCarryOut}
	evaporated := &bath.Water{VolumeL: units.Gallons(2), Cause: bath.CauseEvaporation}
	tests := []struct {
		name  string
		lines []bath.Body
		route string
		want  []string
	}{
		{"signed, then water", []bath.Body{signed("drain"), poured}, bath.RouteSewer, []string{"water went in after the drain was signed: do not dilute to pass (40 CFR 403.6(d)"}},
		{"water, then signed", []bath.Body{poured, signed("drain")}, bath.RouteSewer, nil},
		{"for what evaporated", []bath.Body{signed("drain"), evaporated}, bath.RouteSewer, nil},
		{"kept after all, then water", []bath.Body{signed("drain"), signed("keep"), poured}, bath.RouteSewer, nil},
		{"kept, then water", []bath.Body{signed("keep"), poured}, bath.RouteSewer, nil},
		{"hauled", []bath.Body{signed("drain"), poured}, bath.RouteHauler, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := permitted(t)
			for _, line := range tt.lines {
				b.log(officer, line)
			}
			d := sewer(func(d *bath.Drain) { d.Route = tt.route })
			b.log(officer, d)
			checkOutside(t, d.Outside, tt.want...)
		})
	}
}

// TestACorrectedDrainStaysContaminated: the tag is lifted once the tank is
// clean, and a correction after that loses no mark.
func TestACorrectedDrainStaysContaminated(t *testing.T) {
	b := contaminated(t)
	d := b.log(officer, sewer(func(*bath.Drain) {}))
	b.log(crew, &bath.Clean{Sludge: bath.RouteHold})
	b.log(officer, &bath.Release{Why: "emptied and wiped"})
	fixed := sewer(func(d *bath.Drain) { d.PH = p(units.PH(9.3)) })
	checkOutside(t, bath.Outside(b.state, bath.Entry{Seq: d.Seq, At: d.At, Logged: d.Logged, By: officer, Bath: main, Body: fixed}), "never goes to the sewer")
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	clean := sewer(func(*bath.Drain) {})
	b.log(officer, clean)
	checkOutside(t, clean.Outside)
}

// sewer is a drain that nothing speaks against.
func sewer(change func(*bath.Drain)) *bath.Drain {
	d := &bath.Drain{
		VolumeL: units.Gallons(60), PH: p(units.PH(9.4)), SampleC: p(units.Fahrenheit(77)), LiquidC: p(units.Fahrenheit(98)),
		Oil: p(false), Route: bath.RouteSewer,
	}
	change(d)
	return d
}

// permit is what an invented authority allows. Its pH is as wide as the widest
// of the towns' rules that were found.
func permit() *bath.Discharge {
	return &bath.Discharge{
		Stream: bath.StreamLiquid, Route: bath.RouteSewer, Number: "permit 12", From: "sewer district", Title: "sewer rules, part 4", Dated: "2025-05-01",
		PHLow: p(units.PH(5)), PHHigh: p(units.PH(12.5)), MaxC: p(units.Fahrenheit(104)),
	}
}

// permitted is begun, with that permission on file.
func permitted(t testing.TB) *book {
	b := begun(t)
	b.log(officer, permit())
	return b
}

func sewerless(t testing.TB) *book {
	b := blank(t)
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer})
	b.log(officer, &bath.Tank{VolumeL: units.Gallons(60)})
	b.log(officer, &bath.Fill{VolumeL: units.Gallons(60)})
	return b
}

func contaminated(t testing.TB) *book {
	b := permitted(t)
	b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "a pack with asbestos dust"})
	return b
}
