package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// A drain is never refused, and what it would pass over is said before.
func TestPreviewDrain(t *testing.T) {
	off := &bath.Temp{BathC: 30, Heat: new(false)}
	on := inService().add("8 20:00", off).permitted("")
	none := inService().add("8 20:00", off)
	foul := on.add("9 07:00", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"})
	drain := func(change func(*bath.Drain)) *bath.Drain {
		d := &bath.Drain{VolumeL: units.Gallons(66), PH: new(units.PH(9.4)), SampleC: new(units.Fahrenheit(77)), LiquidC: new(units.Fahrenheit(98)), Oil: new(false), Route: bath.RouteSewer, Locked: new(true)}
		change(d)
		return d
	}
	same := func(*bath.Drain) {}
	asks := permit("")
	asks.Also = "a call the day before"
	wide := permit("")
	wide.MaxC = nil
	const keep = ". Keep the liquid and ask the sewer district. Do not dilute to pass."
	tests := []struct {
		name string
		book book
		body *bath.Drain
		want string
	}{
		{"within the limits", on, drain(same), "Within permit 7, sewer rules, part 4 of 2025-05-01: pH 9.40, 98 °F, no free oil."},
		{"not locked out yet", on, drain(func(d *bath.Drain) { d.Locked = nil }), "Within permit 7, sewer rules, part 4 of 2025-05-01: pH 9.40, 98 °F, no free oil. Heater and ultrasound off and locked out first."},
		{"it asks for more", inService().add("8 20:00", off).add("9 07:00", asks), drain(same), "Within permit 7, sewer rules, part 4 of 2025-05-01: pH 9.40, 98 °F, no free oil. It also asks for: a call the day before."},
		{"too alkaline", on, drain(func(d *bath.Drain) { d.PH = new(units.PH(10.01)) }), "Not for the sewer: pH 10.01 is above 10.00, the most by permit 7, sewer rules, part 4 of 2025-05-01" + keep},
		{"too hot", on, drain(func(d *bath.Drain) { d.LiquidC = new(units.Fahrenheit(122)) }), "Not for the sewer: 122 °F is hotter than 110 °F, the most by permit 7, sewer rules, part 4 of 2025-05-01" + keep + " 122 °F can burn in 2 min."},
		{"a hot cup", on, drain(func(d *bath.Drain) { d.SampleC = new(units.Fahrenheit(110)) }), "Not for the sewer: the sample was at 110 °F: it is cooled to 68 to 86 °F (20 to 30 °C) first" + keep},
		{"no cup", on, drain(func(d *bath.Drain) { d.PH, d.SampleC = nil, nil }), "Not for the sewer: no pH of a cooled sample was taken" + keep},
		{"heater on", on.add("9 07:00", &bath.Temp{BathC: 50, Heat: new(true)}), drain(same), "Not for the sewer: the heater was last logged as on" + keep},
		{"nothing on file", none, drain(same), "Not for the sewer: no permission for the sewer is on file. Keep the liquid and ask whoever runs the sewer. Do not dilute to pass."},
		{"no limit of heat on file", none.add("9 07:00", wide), drain(func(d *bath.Drain) { d.LiquidC = new(units.Fahrenheit(110)) }),
			"Within permit 7, sewer rules, part 4 of 2025-05-01: pH 9.40, no free oil. No limit of heat is on file, and 110 °F is hotter than 104 °F: let it cool. 110 °F can burn in 8 min."},
		{"the meter had failed", on.add("9 07:00", dip(10.20)), drain(same),
			"Not for the sewer: meter M1 had failed on 9 Mar: carbonate reads 10.20 and should read 10.01, 0.19 off: rinse, take fresh buffer, try again; then calibrate with two buffers" + keep},
		{"contaminated, to the sewer", foul, drain(same), "Not for the sewer: the bath was red-tagged as contaminated: the liquid never goes to the sewer" + keep},
		{"contaminated, hauled", foul, drain(func(d *bath.Drain) { d.Route = bath.RouteHauler }), "Outside the rule: the bath was red-tagged as contaminated: the liquid is held until the authority has answered, and nobody is named who did."},
		{"contaminated, held", foul, drain(func(d *bath.Drain) { d.Route = bath.RouteHold }), "Kept until somebody says where it may go: Next asks for it."},
		{"hauled", none, drain(func(d *bath.Drain) { d.Route = bath.RouteHauler }), "Keep the hauler's bill for 3 years at least (from memory), and give its number."},
		{"hauled, corrosive", none, drain(func(d *bath.Drain) { d.Route, d.PH = bath.RouteHauler, new(units.PH(12.5)) }), "pH 12.50 is possible corrosive waste (40 CFR 261.22): tell the hauler before it is pumped."},
		{"held, nothing measured", on.add("9 07:00", &bath.Temp{BathC: 54}), &bath.Drain{VolumeL: 200, Route: bath.RouteHold},
			"Kept until somebody says where it may go: Next asks for it. Heater and ultrasound off and locked out first. 129 °F can burn in 17 s."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.book.look(t, "9 09:00").PreviewBody(tt.body); got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

// Source: a plumbing safety table (second-hand): second degree at 49 °C in 8
// min, 51 °C 2 min, 55 °C 17 s, 60 °C 3 s. Between two rows the hotter one is said.
func TestScaldIsNeverPutOff(t *testing.T) {
	for c, want := range map[units.Temperature]string{
		42: "", 43: "in 8 min", 49: "in 8 min", 49.5: "in 2 min", 51: "in 2 min", 52: "in 17 s", 55: "in 17 s", 56: "in 3 s", 60: "in 3 s",
	} {
		d := &bath.Drain{VolumeL: 200, LiquidC: &c, Route: bath.RouteHold, Locked: new(true)}
		got := inService().look(t, "9 09:00").PreviewBody(d)
		if said := strings.Contains(got, "can burn"); said != (want != "") || !strings.Contains(got, want) {
			t.Errorf("%v °C: got %q, want %q", c, got, want)
		}
	}
}

// Where a drained bath would go is known before the drain is signed.
func TestDisposalInADecision(t *testing.T) {
	say := func(b book) string {
		d, err := b.look(t, week(5, "08:05")).Decide()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range d.Reasons {
			if r.ID == "disposal" {
				return r.Say
			}
		}
		return ""
	}
	old := low().add(week(5, "08:01"), &bath.Setting{MostDays: new(30.0)}) // it must go
	hauler := &bath.Discharge{Stream: bath.StreamLiquid, Route: bath.RouteHauler, From: "a hauler", Title: "profile 4", Dated: "2026-01-10"}
	tests := []struct {
		name string
		book book
		want string
	}{
		{"kept", kept(), ""},
		{"at the limit, nothing on file", low(), "no permission for the sewer is on file: ask before it is drained, or hold the liquid; do not dilute to pass"},
		{"at the limit, on file", low().permitted(""), ""},
		{"to drain, on file", old.permitted(""), "to the sewer by permit 7, sewer rules, part 4 of 2025-05-01, pH 5.50 to 10.00, 110 °F at most; the cup cooled first"},
		{"to drain, a hauler on file", old.add(week(5, "08:02"), hauler), "no permission for the sewer is on file: the hauler on file takes it, or it is held"},
		{"contaminated", low().permitted("").add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos"}),
			"disposal is held: never to the sewer, and to no hauler before the authority has answered and who said so is named; the sludge and the cartridges too"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := say(tt.book); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}
