package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
)

func TestIntakeRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "no such thing", body: &bath.Intake{Else: "mud"}, id: "input", say: `anything but smoke: "mud" is not one of none, class-a-foam, fluorinated-foam, blood, asbestos, opioid, chemical, cbrn, unknown`},
		{name: "no answer", body: &bath.Intake{}, id: "missing", say: "anything but smoke is missing: give one of none"},
		{name: "of tomorrow", ago: -time.Hour, body: nothingButSmoke(), id: "future", say: "is in the future"},
	})
}

// The last incident counts, not the last line: one that is logged late does
// not undo a later answer.
func TestTheLastIncidentCounts(t *testing.T) {
	b := begun(t).wait(3 * time.Hour)
	met := func() string { return b.state.Intake.Else }
	b.log(crew, &bath.Intake{Else: bath.ElseAsbestos, Incident: "shop"})
	b.late(crew, b.now.Add(-time.Hour), nothingButSmoke())
	if met() != bath.ElseAsbestos {
		t.Errorf("got %s, want what the later incident met", met())
	}
	last := b.log(crew, &bath.Intake{Else: bath.ElseClassA})
	if a := b.state.Intake; a.Else != bath.ElseClassA || a.By != crew || a.Seq != last.Seq || !a.At.Equal(last.At) {
		t.Errorf("got %+v", a)
	}
	if err := b.strike(crew, last, nil); err != nil {
		t.Fatal(err)
	}
	if met() != bath.ElseAsbestos {
		t.Errorf("got %s, want the answer before the one that was crossed out", met())
	}
}
