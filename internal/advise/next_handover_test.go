package advise_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: an hour before is common practice, no source. By the pattern of the
// book, platoon A, B and C take 24 hours in turn from 07:00, A from 1 January
// 2026 on: 5 March is 63 days later, three times 21, so it is A's.
func TestHandOver(t *testing.T) {
	note := &bath.Handover{Note: "packs still drip"}
	due := func(next, end string) advise.Action {
		return advise.Action{
			Urgency: advise.Today, Due: at(end), Kind: "handover", Say: "Hand over to " + next + " shift",
			Why: "they come on at 07:00, and no note is written yet",
		}
	}
	tagged := inService().add("4 20:00", &bath.Hold{Why: "trips the breaker", Cause: bath.HoldHeater})
	says(t, "handover", []moment{
		{"more than an hour before", inService(), "5 05:59", advise.Action{}},
		{"an hour before", inService(), "5 06:00", due("A", "5 07:00")},
		{"the minute before", inService(), "5 06:59", due("A", "5 07:00")},
		{"the change", inService(), "5 07:00", advise.Action{}},
		{"the next one's turn", inService(), "6 06:30", due("B", "6 07:00")},
		{"written this shift", inService().add("4 19:00", note), "5 06:30", advise.Action{}},
		{"written by the shift before", inService().add("4 06:50", note), "5 06:30", due("A", "5 07:00")},
		{"the day the clock is put forward", inService(), "8 06:30", due("A", "8 07:00")},
		{"a bath with a red tag", tagged, "5 06:30", due("A", "5 07:00")},
		{"nothing ever stood in it", setUp(), "5 06:30", advise.Action{}},
		{"one crew", inService().add("3 09:00", &bath.Setting{Shift: "drill:tue@19:00"}), "5 06:30", advise.Action{}},
	})
}

func TestThisShiftIsWhatWasWrittenInIt(t *testing.T) {
	b := inService().
		add("4 06:59", &bath.Handover{Note: "before"}).
		add("4 07:00", &bath.Handover{Note: "at the change"}).
		add("4 22:00", &bath.Handover{Note: "late"})
	b[len(b)-1].At = at("3 20:00") // of the shift before, written down in this one
	var got []string
	for _, e := range b.look(t, "4 23:00").ThisShift(b) {
		got = append(got, e.Say(units.US))
	}
	if diff := cmp.Diff([]string{"at the change", "late"}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if got := b.look(t, "9 06:00").ThisShift(nil); got == nil || len(got) != 0 {
		t.Errorf("got %v, want an empty list", got)
	}
}

func TestRunningAndHeldAreTold(t *testing.T) {
	b := inService().
		add("4 09:00", &bath.Gear{Tag: "M-2", Item: "mask"}).
		add("4 09:05", &bath.GearHold{Tag: "M-2", Why: "lens crazed"}).
		add("4 22:00", &bath.Start{Items: []bath.Load{{Item: "helmet", Name: "Helmet shell", Count: 2}}, Time: units.Minutes(5), BathC: 50})
	x := b.look(t, "4 22:01")
	if diff := cmp.Diff([]string{"Helmet shell × 2 in the bath, ends 22:05"}, x.Running()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if diff := cmp.Diff([]string{"M-2, held by Kim Vale 09:05: lens crazed"}, x.Held()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	second := append(b, bath.Entry{Seq: b.lastSeq() + 1, At: at("4 22:00"), Logged: at("4 22:00"), By: "Kim Vale", Bath: "drill", Body: &bath.Tank{VolumeL: 100}})
	if diff := cmp.Diff([]string{"bath main: Helmet shell × 2 in the bath, ends 22:05"}, second.look(t, "4 22:01").Running()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
