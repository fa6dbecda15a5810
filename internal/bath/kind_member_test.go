package bath_test

import (
	"testing"

	"bathside/internal/bath"
)

func TestMemberRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "no name", by: officer, body: &bath.Member{}, id: "missing", say: "the member has no name"},
		{name: "no such platoon", by: officer, body: &bath.Member{Name: "Jo", Platoon: "AB"}, id: "input", say: `platoon "AB" is not one of A, B, C`},
		{name: "no such role", by: officer, body: &bath.Member{Name: "Jo", Role: "chief"}, id: "input", say: `role: "chief" is not one of crew, keyholder, officer`},
		{name: "the only officer leaves", by: officer, body: &bath.Member{Name: officer, Left: true}, id: "last-officer", say: "Ana Reyes is the only gear officer here: make another one first"},
		{name: "the only officer becomes crew", by: officer, body: &bath.Member{Name: "ana reyes", Role: bath.Crew}, id: "last-officer", say: "is the only gear officer"},
		{name: "initials of another", by: officer, body: &bath.Member{Name: "Lou Hart", Initials: "lh"}, id: "initials", say: "the initials lh belong to somebody else here"},
		{name: "by crew", body: &bath.Member{Name: "Jo"}, id: "role", say: "is for a gear officer"},
	})
}

func TestAnOfficerMayLeaveWhenThereIsAnother(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Member{Name: keyHolder, Role: bath.Officer})
	b.log(officer, &bath.Member{Name: officer, Left: true})
	if err := b.try(b.draft(officer, b.now, &bath.Handover{Note: "x"})); err == nil {
		t.Error("somebody who left may still write")
	}
	b.log(keyHolder, &bath.Setting{Station: "Mill Road 2"})
}

func TestRecordingAMemberAgainChangesOnlyWhatIsGiven(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Member{Name: "KIM SATO", Platoon: "b"})
	m, err := b.state.Member("ks")
	if err != nil {
		t.Fatal(err)
	}
	if want := (bath.Member{Name: "KIM SATO", Role: bath.KeyHolder, Platoon: "B", Initials: "KS"}); m != want {
		t.Errorf("got %+v, want %+v", m, want)
	}
	if on := b.state.OnDuty("A"); len(on) != 2 {
		t.Errorf("platoon A has %v on its duty list", on)
	}
}
