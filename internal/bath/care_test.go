package bath_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

const appB2 = "29 CFR 1910.134 App. B-2"

// maskCare is what that rule asks for after the wash of a mask: 2 minutes at
// least in 50 ppm of chlorine or iodine, between two rinses.
var maskCare = []bath.CareStep{
	{ID: "rinse"}, {ID: "disinfect", Least: units.Minutes(2), PPM: 50, Source: appB2}, {ID: "rinse"}, {ID: "dry"}, {ID: "inspect"},
}

// packCare ends with a test.
var packCare = []bath.CareStep{{ID: "rinse"}, {ID: "test"}}

// careWash is a lawful wash of four masks and a pack with their care, and tags.
func careWash(tags ...string) *bath.Wash {
	return masks(func(w *bath.Wash) {
		w.Items[0].Care = maskCare
		w.Items = append(w.Items, bath.Load{Item: "pack", Name: "Harness pack", Count: 1, Care: packCare})
		w.Tags = tags
	})
}

// tagged is a bath in service with a gear list: two masks, a pack, a helmet.
func tagged(t testing.TB) *book {
	b := begun(t)
	for _, g := range []bath.Gear{{Tag: "M-1", Item: "mask", Serial: "40117"}, {Tag: "M-2", Item: "mask"}, {Tag: "P-1", Item: "pack"}, {Tag: "H-1", Item: "helmet"}} {
		b.log(officer, &g)
	}
	return b
}

// washedIn is tagged with a clean wash of M-1, M-2 and two masks more, and a
// pack.
func washedIn(t testing.TB) (*book, uint64) {
	b := tagged(t)
	return b, b.log(keyHolder, careWash("M-1", "m-2")).Seq
}

func waiting(t testing.TB) *book {
	b, _ := washedIn(t)
	return b
}

// through logs the care of the masks up to and without a step, counted from 0.
func through(t testing.TB, steps int) (*book, uint64) {
	b, seq := washedIn(t)
	for _, s := range maskCare[:steps] {
		b.log(crew, step(seq, s.ID))
	}
	return b, seq
}

func cared(t testing.TB) *book {
	b, _ := through(t, len(maskCare))
	return b
}

// washLine is the line of the wash in those books.
const washLine = 14

// step is a step of the masks as it should be done.
func step(wash uint64, id string) *bath.Care {
	c := &bath.Care{Item: "mask", Step: id, Wash: wash}
	if id == "disinfect" {
		c.Time, c.PPM, c.With = units.Minutes(2), 50, bath.WithChlorine
	}
	return c
}

func disinfect(change func(*bath.Care)) *bath.Care {
	c := step(washLine, "disinfect")
	change(c)
	return c
}

func TestACleanWashMakesABatchOfEachItem(t *testing.T) {
	b, seq := washedIn(t)
	if seq != washLine {
		t.Fatalf("the wash is line %d: set washLine", seq)
	}
	at := b.now
	want := []bath.Batch{
		{Wash: seq, At: at, By: keyHolder, Item: "mask", Name: "Mask", Count: 4, Tags: bath.Tags{"M-1", "M-2"}, Steps: maskCare},
		{Wash: seq, At: at, By: keyHolder, Item: "pack", Name: "Harness pack", Count: 1, Steps: packCare},
	}
	if diff := cmp.Diff(want, b.bath().Batches); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	for _, result := range []string{bath.ResultAgain, bath.ResultDamaged} {
		w := careWash()
		w.Result = result
		b.log(keyHolder, w)
	}
	b.log(keyHolder, masks(func(*bath.Wash) {})) // no care is known: a log book of before
	if n := len(b.bath().Batches); n != len(want) {
		t.Errorf("got %d batches, want none more of what is washed again, damaged, or has no care", n)
	}
}

func TestAWashOutsideTheRuleIsMarkedOnItsBatch(t *testing.T) {
	b := tagged(t)
	w := careWash("M-1")
	w.BathC = units.Fahrenheit(122)
	b.log(keyHolder, w)
	if x := b.bath().Batches[0]; !x.Outside {
		t.Errorf("got %+v, want it marked", x)
	}
	if p, _ := b.state.Piece("M-1"); p.Washes != 1 || len(p.Cleaned) != 0 {
		t.Errorf("got %d washes and %d cleanings, want 1 and 0: it never counts as proper cleaning", p.Washes, len(p.Cleaned))
	}
}

func TestCareRefused(t *testing.T) {
	after := func(n int) func(testing.TB) *book {
		return func(t testing.TB) *book { b, _ := through(t, n); return b }
	}
	checkRefusals(t, []refusal{
		{name: "nothing washed", body: step(0, "rinse"), id: "no-batch", say: "nothing called mask waits for care in bath main: log its wash first"},
		{name: "no such wash", on: waiting, body: step(3, "rinse"), id: "no-batch", say: "no mask of line 3 waits for care"},
		{name: "not in that wash", on: waiting, body: &bath.Care{Item: "helmet", Step: "rinse", Wash: washLine}, id: "no-batch", say: "no helmet of line 14 waits"},
		{name: "no such step", on: waiting, body: step(washLine, "polish"), id: "input", say: `"polish" is not one of rinse, disinfect`},
		{name: "before the rinse", on: waiting, body: step(washLine, "disinfect"), id: "order", say: "rinse comes first for Mask × 4 of line 14, before disinfect"},
		{name: "rinsed twice", on: after(1), body: step(washLine, "rinse"), id: "order", say: "disinfect comes next for Mask × 4 of line 14, not rinse"},
		{name: "second rinse left out", on: after(2), body: step(washLine, "dry"), id: "order", say: "rinse comes next"},
		{name: "all done", on: cared, body: step(washLine, "rinse"), id: "done", say: "every step for Mask × 4 of line 14 is done: a key holder puts it back"},
		{name: "before the wash", on: waiting, ago: 30 * time.Minute, body: step(washLine, "rinse"), id: "early", say: "is before the step or the wash that it follows"},
		{name: "no time", on: after(1), body: disinfect(func(c *bath.Care) { c.Time = 0 }), id: "missing", say: "disinfect takes 2 min at least (29 CFR 1910.134 App. B-2)"},
		{name: "too short", on: after(1), body: disinfect(func(c *bath.Care) { c.Time = 119 }), id: "too-short", say: "1 min 59 s is too short to disinfect Mask × 4: 2 min at least (29 CFR 1910.134 App. B-2); put it back"},
		{name: "no strength", on: after(1), body: disinfect(func(c *bath.Care) { c.PPM = 0 }), id: "missing", say: "disinfect takes 50 ppm at least"},
		{name: "too weak", on: after(1), body: disinfect(func(c *bath.Care) { c.PPM = 49 }), id: "too-weak", say: "49 ppm is too weak to disinfect Mask × 4: 50 ppm at least (29 CFR 1910.134 App. B-2); mix it stronger"},
		{name: "the maker's, unnamed", on: after(1), body: disinfect(func(c *bath.Care) { c.With = bath.WithMaker }), id: "missing", say: "Name the one that the maker approves"},
		{name: "days for minutes", on: after(1), body: disinfect(func(c *bath.Care) { c.Time = units.Hours(73) }), id: "input", say: "3 d 1 h for a step is not believable: at most 3 d"},
		{name: "tested by nobody", on: func(t testing.TB) *book {
			b, seq := washedIn(t)
			b.log(crew, &bath.Care{Item: "pack", Step: "rinse", Wash: seq})
			return b
		}, body: &bath.Care{Item: "pack", Step: "test", Wash: washLine}, id: "missing", say: "who tested Harness pack × 1? Give the name; function and flow tests of breathing sets are for a qualified technician"},
	})
}

func TestCareGoesStepByStep(t *testing.T) {
	b, seq := washedIn(t)
	for i, s := range maskCare {
		if p, _ := b.state.Piece("M-2"); b.state.Where(p) != s.ID || b.bath().Batches[0].Where() != s.ID {
			t.Errorf("step %d: M-2 is at %s, its batch at %s, want %s", i, b.state.Where(p), b.bath().Batches[0].Where(), s.ID)
		}
		if got := b.bath().Waiting("mask", s.ID); got != seq {
			t.Errorf("step %d: line %d waits for %s, want %d", i, got, s.ID, seq)
		}
		b.log(crew, step(seq, s.ID))
		if got := b.bath().Batches[0].Since(); !got.Equal(b.now) {
			t.Errorf("step %d: since %s, want %s", i, got, b.now)
		}
	}
	if p, _ := b.state.Piece("M-2"); b.state.Where(p) != bath.GearReady || b.bath().Waiting("mask", "") != seq {
		t.Errorf("M-2 is at %s, want ready", b.state.Where(p))
	}
	if p, _ := b.state.Piece("M-1"); p.Inspected == nil {
		t.Error("the inspection is not in the record of M-1")
	}
}

// What the maker approves in the place of chlorine and iodine has strength and
// time of its own.
func TestTheMakersCleanerTakesTheMakersWord(t *testing.T) {
	b, seq := through(t, 1)
	b.log(crew, &bath.Care{Item: "mask", Step: "disinfect", Wash: seq, With: bath.WithMaker, Note: "quat 2, by the mask's guide"})
	if got := b.bath().Batches[0].Where(); got != "rinse" {
		t.Errorf("got %s, want the second rinse", got)
	}
}

func TestLinesThatCareRestsOnStay(t *testing.T) {
	b, seq := through(t, 2)
	wash, second := b.entries[seq-1], b.entries[seq+1]
	checkRefusal(t, b.strike(officer, wash, nil), "rests", "rests on line 14: cross that one out first")
	checkRefusal(t, b.strike(officer, b.entries[seq], nil), "rests", "line 16 (After the wash: a step done) rests on line 15")
	again := *wash.Body.(*bath.Wash)
	again.Result = bath.ResultAgain
	checkRefusal(t, b.strike(officer, wash, &again), "rests", "line 16, a step of care, rests on line 14")
	checkRefusal(t, b.strike(officer, second, disinfect(func(c *bath.Care) { c.PPM = 40 })), "too-weak", "50 ppm at least")
	checkRefusal(t, b.strike(officer, second, step(seq, "rinse")), "care", "line 16 stays disinfect of mask of line 14")
	if err := b.strike(officer, second, disinfect(func(c *bath.Care) { c.PPM = 60 })); err != nil {
		t.Errorf("a better figure: %v", err)
	}
	if err := b.strike(officer, second, nil); err != nil {
		t.Errorf("the last step: %v", err)
	}
	if got := b.bath().Batches[0].Where(); got != "disinfect" {
		t.Errorf("with that crossed out %s is next, want disinfect", got)
	}
}

func TestOldBatchesAreLetGo(t *testing.T) {
	b := tagged(t)
	begun := b.log(keyHolder, careWash())
	b.log(crew, step(begun.Seq, "rinse"))
	b.log(keyHolder, careWash())
	b.log(keyHolder, careWash("P-1"))
	left := func(after time.Duration, want ...string) {
		t.Helper()
		b.wait(after)
		b.log(keyHolder, careWash())
		var got []string
		for _, x := range b.bath().Batches {
			if !x.At.Equal(b.now) {
				got = append(got, fmt.Sprint(x.Say(), " ", len(x.Done), x.Tags))
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("-want +got\n%s", diff)
		}
	}
	const day = 24 * time.Hour
	left(8*day, "Mask × 4 1 ", "Harness pack × 1 0 P-1")
	left(23*day, "Harness pack × 1 0 P-1")
	left(400*day, "Harness pack × 1 0 P-1")
	for range 200 {
		b.log(keyHolder, careWash())
	}
	if n := len(b.bath().Batches); n != 300 {
		t.Errorf("got %d batches, want 300 at the most", n)
	}
}
