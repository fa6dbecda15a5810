package console

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/units"
)

// A fan is drawn on Readings, four weeks ahead at the most, and only from two
// readings on.
func TestFanTakesTwoReadings(t *testing.T) {
	d := sit(t, 100, 30, false)
	d.record(
		line{"Amari", &bath.Fill{VolumeL: units.Gallons(72)}}, line{"Amari", &bath.Dose{VolumeL: units.Gallons(1.8)}},
		line{"Amari", &bath.Reading{PH: 10.42, SampleC: units.Fahrenheit(121), Meter: "M1", Baseline: true}})
	if p := plot(d.m.x, chart.Braille, true); len(p.Bands)+len(p.Paths) > 0 || p.X1 != unix(d.m.x.Now) {
		t.Errorf("after one reading: %d fans to %s", len(p.Bands), time.Unix(int64(p.X1), 0).UTC())
	}
	d.clock.t = d.clock.t.AddDate(0, 0, 14)
	d.record(line{"Amari", &bath.Reading{PH: 10.25, SampleC: units.Fahrenheit(121), Meter: "M1"}})
	p := plot(d.m.x, chart.Braille, true)
	if len(p.Bands) != 1 || len(p.Bands[0].X) < 7 {
		t.Fatalf("after two readings: %+v", p.Bands)
	}
	if last := d.m.x.Now.AddDate(0, 0, 28); p.X1 <= unix(d.m.x.Now) || p.X1 > unix(last) {
		t.Errorf("the chart ends %s, want after now and by %s", time.Unix(int64(p.X1), 0).UTC(), last)
	}
	for i, b := range p.Bands[0].X {
		if lo, hi := p.Bands[0].Lo[i], p.Bands[0].Hi[i]; lo > hi || b < unix(d.m.x.Now) {
			t.Errorf("at %.0f from %.2f to %.2f", b, lo, hi)
		}
	}
	if p := plot(d.m.x, chart.Braille, false); len(p.Bands) > 0 {
		t.Error("Today's small chart has a fan too")
	}
}

// No date is spoken of once the bath is at its limit.
func TestTrendWords(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.wants("Down 0.22; good for at least a week.")
	d.press("2")
	d.wants("Good for at least a week · Down 0.22 over 14 days; act at 0.50")
	d.record(decisions["drain"]...)
	d.wants("Down 0.68 over 21 days; act at 0.50.")
	d.press("1")
	d.wants("Down 0.68 over 21 days; act at 0.50.")
	d.press("3")
	d.lacks("likely about")
}
