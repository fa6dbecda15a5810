package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
)

// TestAContaminatedWashLooksBack: what was in it or after it is held, also
// where it is back in service; what came before is not.
func TestAContaminatedWashLooksBack(t *testing.T) {
	b := tagged(t)
	b.log(keyHolder, masks(func(w *bath.Wash) { w.Tags = bath.Tags{"M-2"} })) // no care is asked for: back at once
	bad := b.log(keyHolder, careWash("M-1"))
	later := masks(func(w *bath.Wash) {
		w.Items = []bath.Load{{Item: "helmet", Name: "Helmet", Count: 1}}
		w.Tags = bath.Tags{"H-1"}
	})
	b.log(keyHolder, later)
	hold := b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos on a pack", Wash: bad.Seq})
	checkHeld(t, b, map[string]bool{"M-1": true, "M-2": false, "H-1": true, "P-1": false})
	for _, x := range b.bath().Batches {
		if x.Hold == nil || x.Hold.Seq != hold.Seq {
			t.Errorf("%s of line %d is not held", x.Say(), x.Wash)
		}
	}
	b.log(keyHolder, careWash("P-1")) // outside the rule, and held with the rest
	checkHeld(t, b, map[string]bool{"P-1": true})
	b.log(officer, &bath.GearRelease{Wash: bad.Seq, Why: "laboratory says clear"})
	b.log(officer, &bath.GearRelease{Tag: "M-1", Why: "laboratory says clear"})
	checkHeld(t, b, map[string]bool{"M-1": false, "H-1": true})
	if err := b.strike(officer, hold, nil); err != nil {
		t.Fatal(err)
	}
	checkHeld(t, b, map[string]bool{"M-1": false, "H-1": false, "P-1": false})
}

// A wash that is logged late is held by when it was, not by when it was
// written.
func TestALateWashIsHeldToo(t *testing.T) {
	b := tagged(t)
	bad := b.log(keyHolder, careWash())
	between := b.now.Add(10 * time.Minute)
	b.wait(time.Hour)
	b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos", Wash: bad.Seq})
	b.late(keyHolder, between, masks(func(w *bath.Wash) { w.Tags = bath.Tags{"M-1"} }))
	b.late(keyHolder, bad.At.Add(-2*time.Minute), masks(func(w *bath.Wash) { w.Tags = bath.Tags{"M-2"} }))
	checkHeld(t, b, map[string]bool{"M-1": true, "M-2": false})
}

func TestLookBackRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "for a leak", on: waiting, body: &bath.Hold{Cause: bath.HoldLeak, Why: "drips", Wash: washLine}, id: "input", say: "a wash is named only where the bath is contaminated"},
		{name: "to a line that is no wash", on: waiting, body: &bath.Hold{Cause: bath.HoldContaminated, Why: "dust", Wash: 6}, id: "no-wash", say: "line 6 is no wash of bath main"},
		{name: "to a line to come", on: waiting, body: &bath.Hold{Cause: bath.HoldContaminated, Why: "dust", Wash: 99}, id: "no-wash", say: "line 99 is no wash"},
	})
}

func checkHeld(t *testing.T, b *book, want map[string]bool) {
	t.Helper()
	for tag, held := range want {
		if p, _ := b.state.Piece(tag); (p.Hold != nil) != held {
			t.Errorf("%s: held is %t, want %t", tag, p.Hold != nil, held)
		}
	}
}
