package console

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// set changes a setting of the station, as of now.
func (d *desk) set(s bath.Setting) {
	d.Helper()
	if _, err := d.st.Record(stationDraft("Noor", &s)); err != nil {
		d.Fatal(err)
	}
	d.run(d.m.load())
}

// Litres, twelve hours, the month first; and the widest dates, in the smallest
// window.
func TestPlaces(t *testing.T) {
	metric := bath.Setting{Units: "si", Clock: units.Clock12, Dates: units.DatesMonth}
	wide := bath.Setting{Units: "si", Clock: units.Clock12, Dates: units.DatesISO}
	for _, c := range []struct {
		name  string
		w, h  int
		place bath.Setting
		keys  []string
	}{
		{"places-today-100x30", 100, 30, metric, nil},
		{"places-readings-100x30", 100, 30, metric, []string{"2"}},
		{"places-log-100x30", 100, 30, metric, []string{"7"}},
		{"places-today-60x16", 60, 16, wide, nil},
		{"places-readings-60x16", 60, 16, wide, []string{"2"}},
		{"places-log-60x16", 60, 16, wide, []string{"7"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sit(t, c.w, c.h, true)
			d.set(c.place)
			d.press(c.keys...)
			d.golden(c.name)
		})
	}
}

// Denver shows 01:30 twice on 1 November 2026 (15 U.S.C. 260a): the strip says
// which one it is.
func TestHourShownTwiceIsToldApart(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.set(bath.Setting{Zone: "America/Denver"})
	for _, c := range []struct{ utc, strip string }{{"07:30", "Sun 01:30 MDT"}, {"08:30", "Sun 01:30 MST"}, {"09:30", "Sun 02:30 "}} {
		at, err := time.Parse("2006-01-02 15:04", "2026-11-01 "+c.utc)
		if err != nil {
			t.Fatal(err)
		}
		d.clock.t = at
		d.send(clockMsg(at))
		d.wants(c.strip)
	}
}
