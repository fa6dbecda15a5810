package station_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// Lines keep the order in which they were written, whatever the clocks say, and
// folding them again gives the same state.
func TestAClockThatJumps(t *testing.T) {
	clock := &wall{now: noon}
	path := newFile(t)
	s := open(t, path, clock)
	write(t, s, service()...)
	for _, jump := range []time.Duration{-24 * time.Hour, -40 * 24 * time.Hour, time.Hour, 365 * 24 * time.Hour, -300 * 24 * time.Hour, -10 * time.Second} {
		clock.wait(jump)
		write(t, s, note(jump.String()),
			station.Draft{By: crew, Body: &bath.Temp{BathC: 49}},
			station.Draft{By: crew, Body: &bath.Reading{PH: 10, SampleC: 50, Meter: "M1"}})
	}
	all := lines(t, s)
	if len(all) != 9+6*3 {
		t.Errorf("got %d lines", len(all))
	}
	for i, e := range all {
		if e.Seq != uint64(i+1) || !e.At.Equal(e.Logged) {
			t.Errorf("line %d: number %d, happened %s, written %s", i+1, e.Seq, e.At, e.Logged)
		}
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
	same(t, "state of another program", fresh(t, s), stateOf(t, open(t, path, &wall{now: noon.AddDate(5, 0, 0)})))
}

// What is said to have happened before the fill is refused with the time it
// began, unless this clock is behind the fill itself.
func TestBeforeTheFill(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, newFile(t), clock)
	write(t, s, service()...)
	clock.wait(time.Hour)
	late := station.Draft{By: crew, At: noon.Add(-time.Minute), Body: &bath.Reading{PH: 10, SampleC: 50}}
	_, err := s.Record(late)
	checkRefused(t, "a minute before the fill", err, "before-fill")
	if want := "Mon 2 Mar 11:59 is before the open fill, which began Mon 2 Mar 12:00: give a time since then"; err != nil && err.Error() != want {
		t.Errorf("got %q, want %q", err, want)
	}
	_, err = s.Record(station.Draft{By: crew, At: noon.Add(2 * time.Hour), Body: &bath.Reading{PH: 10, SampleC: 50}})
	checkRefused(t, "in an hour", err, "future")
	clock.wait(-26 * time.Hour)
	write(t, s, station.Draft{By: crew, Body: &bath.Reading{PH: 10, SampleC: 50}})
}

// The clocks of two machines stand in Tokyo and in London. Their lines are in
// the station's zone, and mean the same.
func TestMachinesOfDifferentZones(t *testing.T) {
	path := newFile(t)
	write(t, open(t, path), service()...)
	home := []*wall{{now: noon}, {now: noon}}
	abroad := []*wall{{now: noon.In(mustZone("Asia/Tokyo"))}, {now: noon.In(mustZone("Europe/London"))}}
	other := copyOf(t, path)
	for i := range 20 { // 20 weeks, with the changes of the clock of both zones
		for k, machines := range [][]*wall{home, abroad} {
			clock := machines[i%2]
			clock.now = clock.now.Add(7 * 24 * time.Hour)
			machines[1-i%2].now = clock.now.In(machines[1-i%2].now.Location())
			s := open(t, []string{path, other}[k], clock)
			write(t, s, station.Draft{ID: fmt.Sprint("r", i), By: crew, Body: &bath.Reading{PH: 10, SampleC: 50, Meter: "M1"}},
				station.Draft{ID: fmt.Sprint("d", i), By: crew, Body: &bath.Duty{What: bath.DutyEyewash}})
		}
	}
	a, b := open(t, path), open(t, other)
	if diff := cmp.Diff(lines(t, a), lines(t, b)); diff != "" {
		t.Errorf("-at home +abroad:\n%s", diff)
	}
	same(t, "state", stateOf(t, a), stateOf(t, b))
	for _, e := range lines(t, b) {
		if _, offset := e.At.Zone(); offset != -7*3600 && offset != -6*3600 {
			t.Errorf("line %d is written in another zone: %s", e.Seq, e.At)
		}
	}
}
