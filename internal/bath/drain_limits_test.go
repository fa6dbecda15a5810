package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// TestDrainLimits holds samples against limits that are in force somewhere, and
// against those that hold everywhere.
func TestDrainLimits(t *testing.T) {
	within := func(low, high units.PH) func(*bath.Discharge) {
		return func(d *bath.Discharge) { d.PHLow, d.PHHigh = &low, &high }
	}
	ph := func(ph units.PH) func(*bath.Drain) { return func(d *bath.Drain) { d.PH = &ph } }
	at := func(f float64, ph units.PH) func(*bath.Drain) {
		return func(d *bath.Drain) { d.PH, d.SampleC = &ph, p(units.Fahrenheit(f)) }
	}
	liquid := func(f float64) func(*bath.Drain) { return func(d *bath.Drain) { d.LiquidC = p(units.Fahrenheit(f)) } }
	bare := func(d *bath.Discharge) { d.PHLow, d.PHHigh, d.MaxC = nil, nil, nil }
	same := func(*bath.Discharge) {}
	tests := []struct {
		name   string
		permit func(*bath.Discharge)
		drain  func(*bath.Drain)
		want   []string
	}{
		// Corrosive waste: aqueous, pH 12.5 or more. 40 CFR 261.22(a)(1). It
		// counts though the town allows as much.
		{"12.4", same, at(77, 12.4), nil},
		{"12.49", same, at(77, 12.49), nil},
		{"12.5", same, at(77, 12.5), []string{"pH 12.50 is 12.5 or above: possible corrosive waste (40 CFR 261.22), not for the sewer"}},
		// Nothing below pH 5.0 to a public sewer. 40 CFR 403.5(b)(2).
		{"4.9", within(4, 12), ph(4.9), []string{"pH 4.90 is below 5.0, the federal floor for a sewer (40 CFR 403.5(b))"}},
		{"5.0", within(4, 12), ph(5), nil},
		{"4.996 is printed 5.00", within(4, 12), ph(4.996), nil},
		// Cobb County (Georgia), sec. 122-181(a)(3): pH 5.5 to 12.5.
		{"10.5 in 5.5 to 12.5", within(5.5, 12.5), ph(10.5), nil},
		{"5.4 in 5.5 to 12.5", within(5.5, 12.5), ph(5.4), []string{"pH 5.40 is below 5.50, the least by permit 12, sewer rules, part 4 of 2025-05-01"}},
		// A city code of San Joaquin County (California), 7.089.16, 1991: 5.0 to
		// 10.0, and 150 °F.
		{"10.5 in 5 to 10", within(5, 10), ph(10.5), []string{"pH 10.50 is above 10.00, the most by permit 12, sewer rules, part 4 of 2025-05-01"}},
		{"10.0 in 5 to 10", within(5, 10), ph(10), nil},
		{"150 °F", func(d *bath.Discharge) { d.MaxC = p(units.Fahrenheit(150)) }, liquid(150), nil},
		{"151 °F of 150", func(d *bath.Discharge) { d.MaxC = p(units.Fahrenheit(150)) }, liquid(151), []string{"151 °F is hotter than 150 °F, the most by permit 12"}},
		// Terms of trade effluent in England: pH 6 to 11, 43.3 °C.
		{"10.5 in 6 to 11", within(6, 11), ph(10.5), nil},
		{"43.5 °C of 43.3", func(d *bath.Discharge) { d.MaxC = p(units.Temperature(43.3)) }, func(d *bath.Drain) { d.LiquidC = p(units.Temperature(43.5)) },
			[]string{"110.3 °F is hotter than 109.9 °F"}},
		// A sample for a drain: rulings of the trade, 68 to 86 °F, 77 give or take
		// 2 °F above pH 12.
		{"hot cup", same, at(98, 9.4), []string{"the sample was at 98 °F: it is cooled to 68 to 86 °F (20 to 30 °C) first"}},
		{"cold cup", same, at(60, 9.4), []string{"the sample was at 60 °F"}},
		{"68 °F", same, at(68, 9.4), nil},
		{"86 °F", same, at(86, 9.4), nil},
		{"above pH 12 at 86 °F", same, at(86, 12.1), []string{"the sample was at 86 °F: above pH 12 it is read at 77 °F (25 °C), give or take 2 °F"}},
		{"above pH 12 at 79 °F", same, at(79, 12.1), nil},
		{"pH 12.00 at 86 °F", same, at(86, 12), nil},
		{"nobody measured the liquid", same, func(d *bath.Drain) { d.LiquidC = nil }, []string{"nobody measured the liquid, and permit 12 allows 104 °F at most"}},
		{"no limit of heat", bare, func(d *bath.Drain) { d.LiquidC = nil }, []string{"permit 12 is on file without a limit of pH"}},
		{"no number", func(d *bath.Discharge) { bare(d); d.Number = "" }, ph(9.4), []string{"the word of sewer district is on file without a limit of pH"}},
		{"free oil", same, func(d *bath.Drain) { d.Oil = p(true) }, []string{"free oil lay on it: skimmed off, it is a waste of its own"}},
		{"nobody looked, and nothing limits it", same, func(d *bath.Drain) { d.Oil = nil }, nil},
		{"nobody looked", func(d *bath.Discharge) { d.OilMgL = p(100.0) }, func(d *bath.Drain) { d.Oil = nil }, []string{"nobody looked for free oil, and permit 12 limits it"}},
		{"lapsed yesterday", func(d *bath.Discharge) { d.Lapses = "2026-03-01" }, ph(9.4), []string{"permit 12 lapsed on 2026-03-01"}},
		{"its last day", func(d *bath.Discharge) { d.Lapses = "2026-03-02" }, ph(9.4), nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			on := permit()
			tt.permit(on)
			b.log(officer, on)
			d := sewer(tt.drain)
			b.log(officer, d)
			checkOutside(t, d.Outside, tt.want...)
		})
	}
}

// TestWhatIsNotMeasuredPassesNothing: a drain of which nothing is known passes
// no limit at all.
func TestWhatIsNotMeasuredPassesNothing(t *testing.T) {
	b := permitted(t)
	d := &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteSewer}
	e := b.draft(officer, b.now, d)
	checks := d.LimitChecks(b.state, b.bath(), e)
	if len(checks) == 0 {
		t.Fatal("nothing was checked")
	}
	for _, c := range checks {
		if c.Is == bath.Passes {
			t.Errorf("%q passes, and nothing was measured", c.Say)
		}
	}
	full := sewer(func(*bath.Drain) {})
	var passed []string
	for _, c := range full.LimitChecks(b.state, b.bath(), e) {
		if c.Is == bath.Passes {
			passed = append(passed, c.Say)
		}
	}
	if got := strings.Join(passed, ", "); got != "pH 9.40, 98 °F, no free oil" {
		t.Errorf("got %q", got)
	}
}
