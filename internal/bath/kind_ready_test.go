package bath_test

import (
	"testing"

	"bathside/internal/bath"
)

// back is two tagged masks with their certificate: the five fields of WAC
// 296-307-61015 (3), of which the date is the line's own.
func back(change func(*bath.Ready)) *bath.Ready {
	r := &bath.Ready{Item: "mask", Wash: washLine, Serial: "40117, M-2", Findings: "none", Action: "none", Inspector: keyHolder}
	change(r)
	return r
}

func TestReadyRefused(t *testing.T) {
	with := func(change func(*bath.Ready)) bath.Body { return back(change) }
	asIs := with(func(*bath.Ready) {})
	checkRefusals(t, []refusal{
		{name: "by crew", on: cared, body: asIs, id: "role", say: "is for a key holder"},
		{name: "nothing done", on: waiting, by: keyHolder, body: asIs, id: "steps", say: "Mask × 4 of line 14 is not ready: rinse, disinfect, rinse, dry, inspect missing"},
		{name: "one step missing", on: func(t testing.TB) *book { b, _ := through(t, 4); return b }, by: keyHolder, body: asIs, id: "steps", say: "is not ready: inspect missing; log what was done"},
		{name: "no serial", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Serial = "" }), id: "missing", say: "Give the serial number or tag of each"},
		{name: "fewer serials than masks", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Count = 3 }), id: "count", say: "3 go back and there are serial numbers of 2"},
		{name: "more than there are", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Serial = "a,b,c,d,e" }), id: "count", say: "5 cannot go: the wash of line 14 has Mask × 4 left"},
		{name: "one twice", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Serial = "a, A" }), id: "twice", say: "serial number A is there twice"},
		{name: "no findings", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Findings = "" }), id: "missing", say: "what did the inspection find?"},
		{name: "no action", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Action = "" }), id: "missing", say: "what is to be done?"},
		{name: "another's tag", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Tags, r.Serial = bath.Tags{"P-1"}, "P-1" }), id: "tag", say: "tag P-1 is not among what waits of line 14: it has M-1, M-2"},
		{name: "which of them", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.Serial = "1, 2, 3" }), id: "which", say: "name their tags; there are M-1, M-2"},
		{name: "kept out for nothing", on: cared, by: keyHolder, body: with(func(r *bath.Ready) { r.KeptOut, r.Findings = true, "" }), id: "missing", say: "why is it kept out?"},
		{name: "a piece of it held", on: func(t testing.TB) *book {
			b := cared(t)
			b.log(crew, &bath.GearHold{Tag: "M-2", Why: "lens cracked"})
			return b
		}, by: keyHolder, body: asIs, id: "held", say: "M-2 is held by Lee Holm: lens cracked"},
		{name: "all of it held", on: func(t testing.TB) *book {
			b := cared(t)
			b.log(crew, &bath.GearHold{Wash: washLine, Why: "smells of fuel"})
			return b
		}, by: keyHolder, body: asIs, id: "held", say: "Mask × 4 of line 14 is held by Lee Holm: smells of fuel; a gear officer releases it"},
		{name: "past its life", on: func(t testing.TB) *book {
			b := cared(t)
			b.log(officer, &bath.Gear{Tag: "M-1", Ends: bath.Month{Year: 2026, Of: 2}})
			return b
		}, by: keyHolder, body: asIs, id: "expired", say: "M-1 stays out of service: its life ended with Feb 2026"},
	})
}

func TestWhatIsReleasedLeavesItsBatch(t *testing.T) {
	b := cared(t)
	b.log(keyHolder, back(func(r *bath.Ready) { r.Serial = "40117" }))
	x := b.bath().Batches[0]
	if x.Count != 3 || x.Tags.String() != "M-2" {
		t.Errorf("got %s, %s, want three masks with M-2 among them", x.Say(), x.Tags)
	}
	if p, _ := b.state.Piece("M-1"); b.state.Where(p) != bath.GearInService {
		t.Errorf("M-1 is %s", b.state.Where(p))
	}
	b.log(keyHolder, back(func(r *bath.Ready) { r.Serial, r.KeptOut, r.Findings = "M-2", true, "strap torn" }))
	if p, _ := b.state.Piece("M-2"); b.state.Where(p) != bath.GearHeld || p.Hold.Why != "strap torn" {
		t.Errorf("M-2 is %s, %+v", b.state.Where(p), p.Hold)
	}
	ready := b.log(keyHolder, back(func(r *bath.Ready) { r.Serial = "51, 52" }))
	if left := b.bath().Batches; len(left) != 1 || left[0].Item != "pack" {
		t.Errorf("got %+v, want the pack alone", left)
	}
	checkRefusal(t, b.strike(officer, ready, back(func(r *bath.Ready) { r.Serial = "51" })), "care", "stays about the same gear")
	if err := b.strike(officer, ready, back(func(r *bath.Ready) { r.Serial, r.Findings = "51, 53", "scratch" })); err != nil {
		t.Errorf("a certificate is mended: %v", err)
	}
	if err := b.strike(officer, ready, nil); err != nil {
		t.Fatal(err)
	}
	if x := b.bath().Batches[0]; x.Item != "mask" || x.Count != 2 {
		t.Errorf("got %s, want the two masks back in care", x.Say())
	}
}

// Other items need no certificate, and go back by count.
func TestAPackGoesBackWhenItsTestIsLogged(t *testing.T) {
	b, seq := washedIn(t)
	b.log(crew, &bath.Care{Item: "pack", Step: "rinse", Wash: seq})
	b.log(crew, &bath.Care{Item: "pack", Step: "test", Wash: seq, Tester: "a technician of the county"})
	b.log(keyHolder, &bath.Ready{Item: "pack", Wash: seq})
	if left := b.bath().Batches; len(left) != 1 || left[0].Item != "mask" {
		t.Errorf("got %+v, want the masks alone", left)
	}
}
