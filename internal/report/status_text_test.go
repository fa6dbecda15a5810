package report

import (
	"bytes"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// states are the states that matter, with the moment at which they are shown.
func states(t *testing.T) map[string]*advise.Snapshot {
	cold := inUse().add("26 06:40", "Amari Boone", &bath.Reading{PH: 10.40, SampleC: units.Fahrenheit(101), Meter: "M2"})
	rose := inUse().add("26 06:40", "Amari Boone", &bath.Reading{PH: 10.33, SampleC: units.Fahrenheit(121), Meter: "M2"})
	over := inUse().
		add("3 14:00", "Ilse Varga", dropTest(6)).
		add("26 06:20", "Ilse Varga", dropTest(3.5)).
		add("26 06:30", "Amari Boone", &bath.Reading{PH: 9.71, SampleC: units.Fahrenheit(121), Meter: "M2"}).
		add("26 06:45", "Amari Boone", &bath.Hold{Cause: bath.HoldHeater, Why: "heater trips the breaker, smell of burning at the switch box beside the wash bay"}).
		add("26 06:46", "Ilse Varga", &bath.Tank{Name: "Small parts", VolumeL: units.Gallons(20)}).
		last(func(e *bath.Entry) { e.Bath = "small" })
	empty := inUse().add("26 01:00", "Ilse Varga", &bath.Drain{VolumeL: units.Gallons(75), Route: bath.RouteHauler})
	return map[string]*advise.Snapshot{
		"new":    setUp().look(t, "1 09:30"),
		"close":  inUse().look(t, "26 06:52"),
		"cold":   cold.look(t, "26 06:52"),
		"rose":   rose.look(t, "26 06:52"),
		"over":   over.look(t, "26 06:52"),
		"metric": abroad().look(t, "26 06:52"),
		"empty":  empty.look(t, "26 06:52"),
	}
}

// abroad is inUse where people write 7:05 pm, Jan 2 and litres.
func abroad() *book {
	return inUse().add("26 06:45", "Ilse Varga", &bath.Setting{Units: "si", Clock: units.Clock12, Dates: units.DatesMonth})
}

// dropTest took so many mL of acid to pH 8.3.
func dropTest(mL float64) *bath.Titration {
	return &bath.Titration{SampleL: 0.1, AcidN: 0.02, To83L: bath.Burette(mL / 1000)}
}

func TestWriteStatus(t *testing.T) {
	for name, x := range states(t) {
		t.Run(name, func(t *testing.T) {
			golden(t, "status-"+name+".golden", written(t, func(b *bytes.Buffer) error { return WriteStatus(b, x) }))
		})
	}
}
