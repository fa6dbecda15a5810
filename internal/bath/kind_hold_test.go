package bath_test

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestTagRefused(t *testing.T) {
	lift := &bath.Release{Why: "element replaced"}
	checkRefusals(t, []refusal{
		{name: "no reason", body: &bath.Hold{Cause: bath.HoldLeak}, id: "missing", say: "what is wrong with the bath?"},
		{name: "no kind", body: &bath.Hold{Why: "drips"}, id: "missing", say: "what is wrong is missing: give one of contaminated, leak"},
		{name: "lift without a tag", by: officer, body: lift, id: "no-tag", say: "no red tag hangs on bath main: there is nothing to lift"},
		{name: "lift by a key holder", on: contaminated, by: keyHolder, body: lift, id: "role", say: "is for a gear officer"},
		{name: "lift without a reason", on: contaminated, by: officer, body: &bath.Release{}, id: "missing", say: "what was done? Say in one line why the bath is safe"},
		{name: "lift while contaminated and filled", on: contaminated, by: officer, body: lift, id: "contaminated", say: "drain it with the liquid held for the authority, clean the tank, then lift the tag"},
	})
}

func TestAContaminatedBathIsDrainedThenReleased(t *testing.T) {
	b := contaminated(t)
	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHold})
	b.log(crew, &bath.Clean{})
	b.log(officer, &bath.Release{Why: "drained, cleaned, lab says clear"})
	if tag := b.bath().Tag; tag != nil {
		t.Errorf("still tagged: %+v", tag)
	}
}

func TestTheFirstTagStaysButContaminationOutweighsIt(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Hold{Cause: bath.HoldHeater, Why: "trips"})
	b.log(crew, &bath.Hold{Cause: bath.HoldLeak, Why: "drips"})
	if tag := b.bath().Tag; tag.Kind != bath.HoldHeater {
		t.Errorf("got %s, want the first", tag.Kind)
	}
	b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos"})
	if tag := b.bath().Tag; tag.Kind != bath.HoldContaminated {
		t.Errorf("got %s, want contaminated", tag.Kind)
	}
}
