package bath_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestRefusedWhateverTheKind(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "nobody on the roster", on: empty, by: crew, body: &bath.Handover{Note: "x"}, id: "who", say: "nobody is on the roster yet: run bathside setup"},
		{name: "first member is no officer", on: empty, by: crew, body: &bath.Member{Name: crew, Role: bath.Crew}, id: "role", say: "is a gear officer, not crew"},
		{name: "first member by somebody else", on: empty, by: "x\x1b[2J", body: &bath.Member{Name: officer, Role: bath.Officer}, id: "who", say: `by "x[2J"`},
		{name: "nobody", by: " ", body: &bath.Handover{Note: "x"}, id: "who", say: "Give a name from the roster: Ana Reyes, Kim Sato, Lee Holm"},
		{name: "a stranger", by: "Max", body: &bath.Handover{Note: "x"}, id: "who", say: `"Max" is not on the roster`},
		{name: "crew runs the ultrasound", body: &bath.Degas{Time: 900}, id: "role", say: "Lee Holm is crew: \"Run empty to clear bubbles\" is for a key holder or a gear officer; ask one of them"},
		{name: "a key holder sets up", by: keyHolder, body: &bath.Setting{Station: "x"}, id: "role", say: "is for a gear officer"},
		{name: "in the future", ago: -3 * time.Minute, body: &bath.Temp{BathC: 50}, id: "future", say: "is in the future: it is"},
		{name: "before the fill", ago: 24 * time.Hour, body: &bath.Temp{BathC: 50}, id: "before-fill", say: "is before the open fill, which began Mon 2 Mar 07:06: give a time since then"},
		{name: "no fill", on: newBook, body: &bath.Temp{BathC: 50}, id: "no-fill", say: "no fill is open in bath main, so there is nothing to record it on; log the fill first"},
		{name: "no bath", on: bathless, body: &bath.Temp{BathC: 50}, id: "no-bath", say: "run bathside setup"},
		{name: "a word that is none of them", body: &bath.Media{Stage: "3", Route: "hauler"}, id: "input", say: `cartridge: "3" is not one of 1, 2`},
		{name: "a word left out", body: &bath.Media{Stage: "1"}, id: "missing", say: "old one to is missing: give one of hauler, hold, trash"},
		{name: "less than nothing", body: &bath.Water{VolumeL: -5, Cause: bath.CauseEvaporation}, id: "input", say: "water added of -5 is not possible: it is 0 or more"},
		{name: "signs that cannot be shown", body: &bath.Handover{Note: "dry\u202e\x1b[31m"}, id: "input", say: `"dry[31m" holds signs that cannot be shown`},
		{name: "a kind of a newer program", body: &bath.Unknown{KindName: "foam", Raw: []byte("{}")}, id: "unknown-kind", say: `"foam" is not a kind of entry here`},
	})
}

// empty is a station before its first line.
func empty(t testing.TB) *book { return blank(t) }

func blank(t rapid.TB) *book { return &book{t: t, now: monday, state: bath.NewState()} }

func bathless(t testing.TB) *book {
	b := blank(t)
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer})
	b.log(officer, &bath.Member{Name: crew})
	return b
}

// Two workstations are rarely set to the same second.
func TestTakesAClockThatIsAMinuteAhead(t *testing.T) {
	b := begun(t)
	b.late(crew, b.now.Add(2*time.Minute), &bath.Temp{BathC: 50})
}

// A workstation was a day ahead when the bath was filled. Once its clock is
// right the fill can be used, drained and followed by another, and each line
// belongs to the fill that it was made in.
func TestAClockOnceAheadDoesNotBlockTheStation(t *testing.T) {
	b := newBook(t)
	right := b.now
	b.wait(24 * time.Hour)
	ahead := b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	b.now = right
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	b.log(crew, &bath.Temp{BathC: 48})
	if l := b.life(); len(l.Entries) != 3 || l.Fill.Seq != ahead.Seq {
		t.Fatalf("got %d lines in fill %d, want 3", len(l.Entries), l.Number)
	}

	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	if _, open := b.bath().Life(); open {
		t.Fatal("the drain did not end the fill")
	}
	second := b.log(crew, &bath.Fill{VolumeL: units.Gallons(59)})
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	if l := b.life(); l.Fill.Seq != second.Seq || l.Number != 2 || len(l.Entries) != 2 {
		t.Fatalf("open is fill %d from line %d with %d lines", l.Number, l.Fill.Seq, len(l.Entries))
	}
	if first := b.bath().Lives()[0]; len(first.Entries) != 4 {
		t.Errorf("the first fill has %d lines, want 4", len(first.Entries))
	}
}

func TestADrainByAClockAheadDoesNotBlockTheNextFill(t *testing.T) {
	b := begun(t)
	right := b.now
	b.wait(24 * time.Hour)
	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	b.now = right
	b.log(crew, &bath.Clean{})
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	b.log(crew, &bath.Temp{BathC: 20})
	if l := b.life(); l.Number != 2 || len(l.Entries) != 2 {
		t.Errorf("open is fill %d with %d lines, want fill 2 with 2", l.Number, len(l.Entries))
	}
}

// Monday's drain and refill, logged on Wednesday: which fill a line belongs to
// is decided by when it happened.
func TestMondaysRefillMayBeLoggedOnWednesday(t *testing.T) {
	b := begun(t)
	b.wait(48 * time.Hour)
	noon := monday.Add(5 * time.Hour)
	b.late(officer, noon, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	b.late(crew, noon.Add(time.Hour), &bath.Fill{VolumeL: units.Gallons(58)})
	b.late(crew, noon.Add(2*time.Hour), &bath.Dose{VolumeL: units.Gallons(2)})
	b.late(crew, noon.Add(3*time.Hour), &bath.Reading{PH: 10.2, SampleC: 50, Baseline: true})
	if l := b.life(); l.Number != 2 || len(l.Entries) != 3 {
		t.Errorf("open is fill %d with %d lines, want fill 2 with 3", l.Number, len(l.Entries))
	}
	e := b.draft(crew, noon.Add(30*time.Minute), &bath.Temp{BathC: 50})
	checkRefusal(t, b.try(e), "before-fill", "is before the open fill")
}
