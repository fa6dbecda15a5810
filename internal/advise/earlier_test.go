package advise_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// refilled is a fill of two weeks, drained, and the next one with its first
// reading: another day of the week, another hour, another temperature.
func refilled() book {
	return inService().
		add("9 10:30", hot(10.02)).
		add("14 10:30", &bath.Reading{PH: 10.90, SampleC: 50, Meter: "M1"}). // not trusted: it rose
		add("16 10:30", hot(9.92)).
		add("16 12:00", &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHold}).
		add("17 08:00", &bath.Fill{VolumeL: units.Gallons(70)}).
		add("17 08:10", &bath.Dose{VolumeL: units.Gallons(2)}).
		add("17 14:00", &bath.Reading{PH: 10.20, SampleC: 52, Meter: "M1", Baseline: true})
}

// The fill before is told by days since its first reading, trusted readings only
// and without the cooled pair.
func TestTheEarlierFillIsToldByDays(t *testing.T) {
	x := refilled().look(t, "20 14:00")
	got, err := x.Earlier()
	if err != nil {
		t.Fatal(err)
	}
	const hour = 1.0 / 24 // the clock was put forward on the 8th
	want := advise.Earlier{Number: 1, AtC: 50, Days: []float64{0, 7 - hour, 14 - hour}, PH: []float64{10.12, 10.02, 9.92}}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if day, ok := x.SinceFirst(at("20 14:00")); !ok || day != 3 {
		t.Errorf("%v days since the first reading, want 3", day)
	}
	for day, want := range map[float64]float64{0: 10.12, (7 - hour) / 2: 10.07, 14 - hour: 9.92} {
		ph, ok := got.On(day)
		if !ok {
			t.Errorf("day %.2f: nothing is told", day)
		}
		near(t, "between two readings", ph, want, 1e-9)
	}
	for _, day := range []float64{-0.1, 14.1} {
		if ph, ok := got.On(day); ok {
			t.Errorf("day %.1f, beyond its readings: %.2f is told", day, ph)
		}
	}
}

// A fill that cannot be compared is refused with the reason.
func TestTheEarlierFillIsRefused(t *testing.T) {
	noFirst := dosed().add("3 08:00", hot(10.0)).
		add("4 08:00", &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHold}).
		add("5 08:00", &bath.Fill{VolumeL: units.Gallons(70)}).
		add("5 09:00", first(10.1))
	for _, c := range []struct {
		name string
		book book
		want string
	}{
		{"the first fill of all", inService(), "the log book holds no fill before this one"},
		{"no first reading now", dosed(), "this fill has no first reading to count the days from: name one"},
		{"no first reading then", noFirst, "bath 1 has no first reading that is trusted: nothing of it can be compared"},
	} {
		t.Run(c.name, func(t *testing.T) {
			e, err := c.book.look(t, "20 14:00").Earlier()
			if err == nil || err.Error() != c.want {
				t.Errorf("got %+v, %v; want %q", e, err, c.want)
			}
		})
	}
}
