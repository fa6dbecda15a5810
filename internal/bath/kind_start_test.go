package bath_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestStartRefused(t *testing.T) {
	is := func(change func(*bath.Start)) *bath.Start { return begins(toolLoad(1), change) }
	checkRefusals(t, []refusal{
		{name: "by crew", on: ready, body: is(nil), id: "role", say: `Lee Holm is crew: "Start a wash" is for a key holder or a gear officer`},
		{name: "without a fill", on: newBook, by: keyHolder, body: is(nil), id: "no-fill", say: "no fill is open in bath main"},
		{name: "nothing in it", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.Items = nil }), id: "missing", say: "Give it like mask=4"},
		{name: "twice", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.Items = append(s.Items, s.Items...) }), id: "twice", say: "tool is in the list twice"},
		{name: "no time", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.Time = 0 }), id: "missing", say: "how long was the wash? Give it like 15min"},
		{name: "hours for minutes", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.Time = units.Hours(4) }), id: "input", say: "at most 2 h"},
		{name: "ice", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.BathC = 0 }), id: "not-liquid", say: "a bath of 32 °F"},
		{name: "no such soil", on: ready, by: keyHolder, body: is(func(s *bath.Start) { s.Soil = "black" }), id: "input", say: `soil: "black" is not one of light, normal, heavy`},
	})
}

// started is ready with tools in the bath for ten minutes, since now.
func started(t testing.TB) *book {
	b := ready(t)
	b.log(keyHolder, tenMinutes())
	return b
}

func tenMinutes() *bath.Start {
	return begins(toolLoad(2), func(s *bath.Start) { s.Time = units.Minutes(10) })
}

// checkTimer compares the timer of the wash in the bath, as it stands and as
// it comes out of a fold of the whole log book, which is what a restart does.
func (b *book) checkTimer(left, ran time.Duration) {
	b.t.Helper()
	again, err := bath.Fold(b.entries)
	if err != nil {
		b.t.Fatal(err)
	}
	for _, s := range []*bath.State{b.state, again} {
		r := s.Baths[0].Run
		if r == nil {
			b.t.Fatal("no wash is in the bath")
		}
		if got := r.Left(b.now); got != left {
			b.t.Errorf("%s left, want %s", got, left)
		}
		if got := r.Ran(b.now).Duration(); got != ran {
			b.t.Errorf("ran for %s, want %s", got, ran)
		}
		if left > 0 {
			if got, want := r.Ends(b.now), b.now.Add(left); !got.Equal(want) {
				b.t.Errorf("ends %s, want %s", got, want)
			}
		}
	}
}

func TestATimerRunsDown(t *testing.T) {
	b := started(t)
	begun := b.now
	b.checkTimer(10*time.Minute, 0)
	b.wait(379*time.Second).checkTimer(221*time.Second, 379*time.Second)
	b.wait(221*time.Second).checkTimer(0, 10*time.Minute)
	b.wait(time.Hour).checkTimer(0, 10*time.Minute)
	if got := b.bath().Run.Ends(b.now); !got.Equal(begun.Add(10 * time.Minute)) {
		t.Errorf("ended %s", got)
	}
}

func TestARunKnowsItsStart(t *testing.T) {
	b := started(t)
	want := &bath.Run{Seq: b.state.Seq, At: b.now, By: keyHolder, Items: []bath.Load{toolLoad(2)}, Soil: "normal", Time: units.Minutes(10), BathC: 40}
	if diff := cmp.Diff(want, b.bath().Run); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if m, at, ok := b.life().Measured(); !ok || m.BathC != 40 || !at.Equal(b.now) {
		t.Errorf("measured %v at %s: want what was measured for the start", m.BathC, at)
	}
	b.wait(11 * time.Minute)
	b.log(crew, &bath.Wash{Items: []bath.Load{toolLoad(2)}, Soil: "normal", Time: 600, BathC: 40, Result: bath.ResultClean, Start: want.Seq})
	if _, at, _ := b.life().Measured(); !at.Equal(want.At) {
		t.Errorf("measured at %s: its result measures nothing", at)
	}
}

// The line that starts a wash tells what was let through, and by whose paper.
func TestStartSays(t *testing.T) {
	b := with(onFile("mask", 54))(t)
	four, two := maskLoad(4), cylinderLoad(2)
	loads := []bath.Load{four, two, toolLoad(1)}
	b.state.NamePapers(loads, b.now)
	s := begins(four, func(s *bath.Start) {
		s.Items, s.BathC, s.Passed, s.Override = loads, 50, []string{"again"}, "trial with the maker"
	})
	want := "started: Mask × 4, Cylinder × 2, Hand tool × 1, 4 min at 122 °F" +
		" · maker's paper for Mask: cleaning guide, rev C · maker's paper for Cylinder: not here yet, accepted by Ana Reyes" +
		" · let through by a gear officer (again): trial with the maker"
	if got := b.draft(officer, b.now, s).Say(units.US); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	b.state.NamePapers(loads, b.now.Add(31*24*time.Hour))
	if loads[1].Paper != "not here yet" {
		t.Errorf("after 31 days nobody answers for it: got %q", loads[1].Paper)
	}
}

func TestAResultTakesTheWashOutOfTheBath(t *testing.T) {
	result := func(start uint64) *bath.Wash {
		return &bath.Wash{Items: []bath.Load{toolLoad(2)}, Soil: "normal", Time: units.Minutes(10), BathC: 40, Result: bath.ResultClean, Start: start}
	}
	tests := []struct {
		name string
		late time.Duration // before its start
		of   uint64        // added to the line of the start
		left bool          // the wash stays in the bath
	}{
		{"its own", 0, 0, false},
		{"of another start", 0, 1, true},
		{"without a start, now", 0, 1 << 32, false},
		{"without a start, before it", time.Hour, 1 << 32, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := started(t)
			of := b.bath().Run.Seq + tt.of
			if tt.of > 1 {
				of = 0
			}
			b.wait(11 * time.Minute)
			at := b.now
			if tt.late > 0 {
				at = b.bath().Run.At.Add(-time.Second)
			}
			b.late(keyHolder, at, result(of))
			if got := b.bath().Run != nil; got != tt.left {
				t.Errorf("a wash in the bath: got %v, want %v", got, tt.left)
			}
		})
	}
}

// Recording what happened is never refused; what was not as at the start is
// marked, and what the gates saw to is not looked at again.
func TestTheResultOfAStartIsMarkedByWhatDiffers(t *testing.T) {
	of := func(b *book, change func(*bath.Wash)) *bath.Wash {
		w := &bath.Wash{Items: []bath.Load{maskLoad(4)}, Soil: "normal", Time: units.Minutes(4), BathC: 40, Result: bath.ResultClean, Start: b.bath().Run.Seq}
		if change != nil {
			change(w)
		}
		return w
	}
	tests := []struct {
		name   string
		by     string
		before bath.Body // logged while it is in the bath
		change func(*bath.Wash)
		want   []string
	}{
		{name: "as it was started", by: keyHolder},
		{name: "logged by crew", by: crew},
		{name: "not clean", by: crew, change: func(w *bath.Wash) { w.Result = bath.ResultAgain }},
		{name: "hotter", by: crew, change: func(w *bath.Wash) { w.BathC = 50 }, want: []string{"Mask: the bath was at 122 °F, the limit is 110 F"}},
		{name: "longer", by: crew, change: func(w *bath.Wash) { w.Time = units.Minutes(6) }, want: []string{"Mask: 6 min is longer than its longest, 5 min"}},
		{name: "tagged meanwhile", by: crew, before: &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos"}, want: []string{"the bath was red-tagged by Ana Reyes: asbestos"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := ready(t)
			b.log(keyHolder, begins(maskLoad(4), nil))
			if tt.before != nil {
				b.log(officer, tt.before)
			}
			w := of(b, tt.change)
			b.log(tt.by, w)
			checkOutside(t, w.Outside, tt.want...)
			if b.bath().Run != nil {
				t.Error("it is still in the bath")
			}
		})
	}
}

// A paper on file is the limit of a wash that is written down afterwards too,
// and where it let in what the catalog would not, the line names it.
func TestAWashGoesByItsPaper(t *testing.T) {
	warm := func() *bath.Wash {
		return masks(func(w *bath.Wash) { w.Items, w.BathC = []bath.Load{maskLoad(4)}, units.Fahrenheit(126) })
	}
	b := with(onFile("mask", 54))(t)
	w := warm()
	b.state.NamePapers(w.Items, b.now)
	b.log(keyHolder, w)
	checkOutside(t, w.Outside)
	want := "Mask × 4, normal soil, 4 min at 126 °F: clean · maker's paper for Mask: cleaning guide, rev C"
	if got := (bath.Entry{Body: w}).Say(units.US); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	b.log(officer, onFile("mask", 50))
	w = warm()
	b.log(keyHolder, w)
	checkOutside(t, w.Outside, "Mask: the bath was at 126 °F, the limit is 122 °F")
	w = masks(func(w *bath.Wash) { w.Items, w.BathC = []bath.Load{cylinderLoad(2)}, units.Fahrenheit(124.9) })
	b.log(keyHolder, w)
	checkOutside(t, w.Outside, "Cylinder: the bath was too close to the limit, 125 F")
}

func TestAStartIsCrossedOut(t *testing.T) {
	b := started(t)
	start := b.entries[len(b.entries)-1]
	b.log(crew, &bath.Pause{})
	if err := b.strike(keyHolder, start, nil); err != nil {
		t.Fatal(err)
	}
	if r := b.bath().Run; r != nil {
		t.Errorf("still in the bath: %+v", r)
	}
	b.log(keyHolder, tenMinutes())
	b.checkTimer(10*time.Minute, 0)
	if b.bath().Run.Paused != nil {
		t.Error("the pause of the one that was crossed out holds up the next")
	}
}

// A correction says what was started, whatever stands in the way of a start by
// now.
func TestAStartIsCorrected(t *testing.T) {
	b := started(t)
	start := b.entries[len(b.entries)-1]
	b.wait(30 * time.Minute)
	fixed := tenMinutes()
	fixed.Items[0].Count = 3
	if err := b.strike(keyHolder, start, fixed); err != nil {
		t.Fatal(err)
	}
	if r := b.bath().Run; r == nil || r.Items[0].Count != 3 || r.Seq != start.Seq {
		t.Errorf("got %+v", r)
	}
}

func TestStrikingAResultPutsTheWashBack(t *testing.T) {
	b := started(t)
	seq := b.bath().Run.Seq
	result := b.log(crew, &bath.Wash{Items: []bath.Load{toolLoad(2)}, Soil: "normal", Time: 600, BathC: 40, Result: bath.ResultClean, Start: seq})
	if err := b.strike(crew, result, nil); err != nil {
		t.Fatal(err)
	}
	if r := b.bath().Run; r == nil || r.Seq != seq {
		t.Errorf("got %+v, want the wash of line %d", r, seq)
	}
}

// TestTimersAreSound: whatever is done to a wash, it never ran for longer than
// it was set to, nor for less than nothing, and its end is fixed once it is
// over.
func TestTimersAreSound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := started(t)
		b.t = rt
		set := b.bath().Run.Time
		for range rapid.IntRange(0, 12).Draw(rt, "steps") {
			b.wait(time.Duration(rapid.IntRange(0, 240).Draw(rt, "seconds")) * time.Second)
			before := b.bath().Run.Ran(b.now)
			body := rapid.SampledFrom([]bath.Body{&bath.Pause{}, &bath.Pause{}, &bath.Resume{}, &bath.Resume{}, &bath.Abort{Why: "tones out"}}).Draw(rt, "what")
			_ = b.try(b.draft(keyHolder, b.now, body))
			r := *b.bath().Run
			if after := r.Ran(b.now); after != before {
				rt.Fatalf("%T made %v of the %v that it ran", body, after, before)
			}
			later := b.now.Add(time.Duration(rapid.IntRange(0, 3600).Draw(rt, "later")) * time.Second)
			if ran := r.Ran(later); ran < before || ran > set {
				rt.Fatalf("ran %v, before %v, set to %v", ran, before, set)
			}
			if held := r.Paused != nil && later.After(b.now); r.Left(later) > 0 && held == r.Ends(later).Equal(r.Ends(b.now)) {
				rt.Fatalf("ends %s, and later %s: paused %v", r.Ends(b.now), r.Ends(later), r.Paused)
			}
		}
	})
}
