package bath_test

import (
	"encoding/json"
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// TestFoldingInPartsIsFoldingWhole: however a lawful log book is cut, what was
// folded before the cut, as it is or out of a checkpoint, and what comes after
// make the same state as all of it at once.
func TestFoldingInPartsIsFoldingWhole(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := anyBook(rt)
		whole, err := bath.Fold(b.entries)
		if err != nil {
			rt.Fatal(err)
		}
		want := text(rt, whole)
		if diff := cmp.Diff(want, text(rt, b.state)); diff != "" {
			rt.Fatalf("one line after the other (-whole +parts):\n%s", diff)
		}
		cut := rapid.IntRange(0, len(b.entries)).Draw(rt, "cut")
		prefix, err := bath.Fold(b.entries[:cut])
		if err != nil {
			rt.Fatal(err)
		}
		before := text(rt, prefix)
		if diff := cmp.Diff(want, text(rt, goOn(rt, prefix, b.entries, cut))); diff != "" {
			rt.Fatalf("cut at %d (-whole +parts):\n%s", cut, diff)
		}
		if diff := cmp.Diff(want, text(rt, goOn(rt, stored(rt, prefix), b.entries, cut))); diff != "" {
			rt.Fatalf("checkpoint at %d (-whole +parts):\n%s", cut, diff)
		}
		if diff := cmp.Diff(before, text(rt, prefix)); diff != "" {
			rt.Fatalf("folding further changed the state it went on from:\n%s", diff)
		}
	})
}

// goOn folds what comes after the cut into s, or everything where it must.
func goOn(t *rapid.T, s *bath.State, entries []bath.Entry, cut int) *bath.State {
	s, err := s.Apply(entries[cut:]...)
	if errors.Is(err, bath.ErrRefold) {
		s, err = bath.Fold(entries)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// stored is s as it comes out of a checkpoint.
func stored(t *rapid.T, s *bath.State) *bath.State {
	data, err := s.Pack()
	if err != nil {
		t.Fatal(err)
	}
	out, err := bath.Unpack(data)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func text(t *rapid.T, s *bath.State) string {
	data, err := json.MarshalIndent(s, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// anyBook is the log book of a station with two baths, as its members may have
// written it: in order and late, by a clock that is sometimes ahead, with lines
// crossed out and corrected. Only what the rules take is in it.
func anyBook(t *rapid.T) *book {
	b := blank(t)
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer})
	b.log(officer, &bath.Member{Name: keyHolder, Role: bath.KeyHolder})
	b.log(officer, &bath.Member{Name: crew})
	b.log(officer, &bath.Setting{Zone: "America/Denver", Shift: "24/48@07:00"})
	for _, id := range []string{"main", "bay"} {
		e := b.draft(officer, b.now, tank())
		e.Bath = id
		if err := b.try(e); err != nil {
			t.Fatal(err)
		}
	}
	for range rapid.IntRange(20, 150).Draw(t, "tries") {
		b.wait(time.Duration(rapid.IntRange(0, 300).Draw(t, "minutes")) * time.Minute)
		b.tryAny(t)
	}
	return b
}

// tryAny writes a line if the rules take it, and checks what must follow.
func (b *book) tryAny(t *rapid.T) {
	right := b.now
	if rapid.IntRange(0, 15).Draw(t, "ahead") == 0 {
		b.now = b.now.Add(24 * time.Hour)
	}
	by := rapid.SampledFrom([]string{officer, officer, officer, keyHolder, crew}).Draw(t, "by")
	at := b.now
	if rapid.IntRange(0, 3).Draw(t, "late") == 0 {
		at = at.Add(-time.Duration(rapid.IntRange(0, 3000).Draw(t, "minutes ago")) * time.Minute)
	}
	e := b.draft(by, at, b.anyBody(t))
	if spec, _ := bath.SpecOf(e.Kind()); spec.Scope != bath.OfStation {
		e.Bath = rapid.SampledFrom([]string{"main", "main", "bay"}).Draw(t, "bath")
	}
	err := b.try(e)
	b.now = right
	if err != nil {
		return
	}
	after, _ := b.state.Bath(e.Bath)
	life, _ := after.LastLife()
	switch e.Body.(type) {
	case *bath.Fill: // one logged after its own drain is over already
		if life.Fill.Seq != e.Seq || life.Drain != nil && life.Drain.Seq > e.Seq {
			t.Fatalf("line %d fills bath %s, and the last fill is that of line %d", e.Seq, e.Bath, life.Fill.Seq)
		}
	case *bath.Drain:
		if _, open := after.Life(); open {
			t.Fatalf("line %d drains bath %s, and fill %d is open after that", e.Seq, e.Bath, life.Number)
		}
	}
}

// anyBody is what the next line may carry; fills and drains are as likely as
// is needed for several fills.
func (b *book) anyBody(t *rapid.T) bath.Body {
	gal := func(least, most int) units.Volume {
		return units.Gallons(float64(rapid.IntRange(least, most).Draw(t, "gal")))
	}
	span := func() units.Span { return units.Minutes(float64(rapid.IntRange(1, 40).Draw(t, "min"))) }
	word := func(of ...string) string { return rapid.SampledFrom(of).Draw(t, "word") }
	switch rapid.SampledFrom([]bath.Kind{
		"fill", "fill", "drain", "dose", "dose", "water", "temp", "degas", "reading", "reading", "reading",
		"calibration", "calibration", "titration",
		"filter", "media", "wash", "care", "care", "care", "care", "wash", "start", "start", "start", "pause", "resume", "abort", "intake", "procedure", "spill", "clean", "hold", "release", "discharge", "disposal", "duty", "handover", "practice", "practice", "member", "setting", "tank",
		"strike", "strike", "strike", "strike",
	}).Draw(t, "kind") {
	case "fill":
		return &bath.Fill{VolumeL: gal(48, 60)}
	case "drain":
		return &bath.Drain{VolumeL: gal(40, 60), Route: word("sewer", "hauler", "hold")}
	case "dose":
		return &bath.Dose{VolumeL: gal(1, 3)}
	case "water":
		return &bath.Water{VolumeL: gal(0, 12), Cause: word("evaporation", "carry-out")}
	case "temp":
		return &bath.Temp{BathC: units.Temperature(rapid.IntRange(20, 50).Draw(t, "°C")), Heat: p(rapid.Bool().Draw(t, "heat"))}
	case "degas":
		return &bath.Degas{Time: span()}
	case "reading":
		return anyReading(t)
	case "calibration":
		return rapid.SampledFrom([]*bath.Calibration{dipped(9.98), dipped(9.2), twoBuffers(), shown(97, 3, 25)}).Draw(t, "check")
	case "titration":
		return dropTest(float64(rapid.IntRange(1, 6).Draw(t, "mL")), nil)
	case "filter":
		return &bath.Filter{Time: span()}
	case "media":
		return &bath.Media{Stage: word("1", "2"), Route: word("hauler", "hold")}
	case "wash":
		return masks(func(w *bath.Wash) { w.Time, w.Start = span(), b.anyStart(t) })
	case "start":
		return begins(toolLoad(1), func(s *bath.Start) { s.Time, s.Override = span(), word("", "trial") })
	case "pause":
		return &bath.Pause{Why: word("", "x")}
	case "resume":
		return &bath.Resume{}
	case "abort":
		return &bath.Abort{Why: "x"}
	case "intake":
		return &bath.Intake{Else: word(bath.ElseNone, bath.ElseNone, bath.ElseClassA, bath.ElseBlood, bath.ElseUnknown)}
	case "procedure":
		return rapid.SampledFrom([]*bath.Procedure{onFile("mask", 50), {Item: "mask", State: bath.PaperPending}, {Item: "tool", State: bath.PaperOutside}}).Draw(t, "paper")
	case "care":
		return b.anyCare(t)
	case "spill":
		return &bath.Spill{VolumeL: gal(1, 5), To: "floor"}
	case "clean":
		return &bath.Clean{Sludge: word("", "hauler", "hold")}
	case "discharge":
		d := permit()
		d.Number, d.Route = word("permit 12", "permit 13"), word("sewer", "hauler")
		return d
	case "disposal":
		return &bath.Disposal{Line: b.anyKept(t), Route: word("hauler", "sewer", "trash"), Allowed: word("", "R. Quill")}
	case "hold":
		return &bath.Hold{Cause: word(bath.HoldLeak, bath.HoldContaminated), Why: "x"}
	case "release":
		return &bath.Release{Why: "x"}
	case "duty":
		return &bath.Duty{What: word(bath.DutyFoil, bath.DutyEyewash)}
	case "practice":
		return &bath.Practice{Guide: word("filter", washGuide), Witness: word(bath.Nobody, officer)}
	case "handover":
		return &bath.Handover{Note: word("a", "b")}
	case "member":
		return &bath.Member{Name: word("Jo Lund", crew), Role: bath.Role(word("crew", "keyholder")), Platoon: word("", "b"), Left: rapid.IntRange(0, 5).Draw(t, "left") == 0}
	case "setting":
		return &bath.Setting{Units: word("us", "si")}
	case "tank":
		return &bath.Tank{Ratio: float64(rapid.IntRange(15, 60).Draw(t, "ratio"))}
	}
	return b.anyStrike(t)
}

// anyKept is a line that kept waste back in a bath, or none.
func (b *book) anyKept(t *rapid.T) uint64 {
	for _, tub := range b.state.Baths {
		if len(tub.Waste) > 0 && rapid.Bool().Draw(t, "here") {
			return rapid.SampledFrom(tub.Waste).Draw(t, "waste").Seq
		}
	}
	return 0
}

// anyStart is the line that started the wash in a bath, or none.
func (b *book) anyStart(t *rapid.T) uint64 {
	for _, tub := range b.state.Baths {
		if tub.Run != nil && rapid.Bool().Draw(t, "its start") {
			return tub.Run.Seq
		}
	}
	return 0
}

func anyReading(t *rapid.T) *bath.Reading {
	return &bath.Reading{
		PH:       units.PH(float64(rapid.IntRange(900, 1040).Draw(t, "pH")) / 100),
		SampleC:  rapid.SampledFrom([]units.Temperature{50, 48, 22}).Draw(t, "sample"),
		Meter:    rapid.SampledFrom([]string{"M1", "M2"}).Draw(t, "meter"),
		Baseline: rapid.IntRange(0, 2).Draw(t, "first") == 0,
	}
}

// anyStrike crosses out a line, rather a late one, or corrects it to another
// of its kind, perhaps at another time.
func (b *book) anyStrike(t *rapid.T) bath.Body {
	n := len(b.entries)
	k := &bath.Strike{Target: uint64(max(1, n-rapid.IntRange(0, n-1).Draw(t, "back"))), Why: "x"}
	target := b.entries[k.Target-1]
	switch body := target.Body.(type) {
	case *bath.Strike:
		return k
	case *bath.Reading:
		if rapid.Bool().Draw(t, "corrected") {
			fixed := anyReading(t)
			fixed.Baseline = body.Baseline
			k.Instead, _ = json.Marshal(fixed)
		}
	default:
		if rapid.Bool().Draw(t, "restated") {
			k.Instead, _ = json.Marshal(body)
		}
	}
	if k.Instead != nil && rapid.Bool().Draw(t, "retimed") {
		k.At = target.At.Add(time.Duration(rapid.IntRange(-600, 600).Draw(t, "moved")) * time.Minute)
	}
	return k
}
