package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Each cartridge has its own hours: those since it was changed, whenever that
// was logged.
func TestFilterHoursCountFromTheChange(t *testing.T) {
	b := begun(t)
	hours := func() [2]float64 { return [2]float64{b.bath().FilterS[0].Hours(), b.bath().FilterS[1].Hours()} }
	check := func(what string, want [2]float64) {
		t.Helper()
		if got := hours(); got != want {
			t.Errorf("%s: got %v, want %v", what, got, want)
		}
	}
	run := func() { b.wait(time.Hour).log(crew, &bath.Filter{Time: units.Hours(2)}) }
	run()
	between := b.now.Add(10 * time.Minute)
	run()
	check("two runs", [2]float64{4, 4})
	b.log(crew, &bath.Media{Stage: "2", Route: "hauler"})
	check("second cartridge changed", [2]float64{4, 0})
	b.late(crew, between, &bath.Media{Stage: "1", Route: "hauler"})
	check("first cartridge changed between the runs, logged late", [2]float64{2, 0})
	run()
	check("another run", [2]float64{4, 2})
	b.late(crew, between.Add(-time.Minute), &bath.Media{Stage: "2", Route: "hauler"})
	check("an older change, logged late", [2]float64{4, 2})
	if got, want := b.life().FilterTime().Hours(), 6.0; got != want {
		t.Errorf("got %v h in this fill, want %v", got, want)
	}
}

func TestADutyIsDoneWhenItWasLastDone(t *testing.T) {
	b := begun(t)
	last := b.log(crew, &bath.Duty{What: bath.DutyFoil})
	b.late(crew, monday, &bath.Duty{What: bath.DutyFoil})
	if got := b.state.Duties[bath.DutyFoil]; !got.Equal(last.At) {
		t.Errorf("got %v, want %v", got, last.At)
	}
}

func TestHandoverNotesKeepTheLastEight(t *testing.T) {
	b := newBook(t)
	for range 10 {
		b.log(crew, &bath.Handover{Note: "x"})
	}
	if n := len(b.state.Notes); n != 8 || b.state.Notes[7].Seq != b.state.Seq {
		t.Errorf("got %d notes, the last from line %d", n, b.state.Notes[7].Seq)
	}
}
