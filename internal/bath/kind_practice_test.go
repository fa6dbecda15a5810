package bath_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

const washGuide = "load-and-run"

func TestPracticeRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "no guide", body: &bath.Practice{Witness: keyHolder}, id: "input", say: `"" is no guide: give its id in small letters, like load-and-run`},
		{name: "a name for an id", body: &bath.Practice{Guide: "Load and run", Witness: keyHolder}, id: "input", say: `"Load and run" is no guide`},
		{name: "no witness", body: &bath.Practice{Guide: washGuide}, id: "missing", say: "who watched? Give a name from the roster, or nobody"},
		{name: "a stranger watched", body: &bath.Practice{Guide: washGuide, Witness: "Max"}, id: "who", say: `"Max" is not on the roster`},
		{name: "watched themself", body: &bath.Practice{Guide: washGuide, Witness: "LH"}, id: "witness", say: "Lee Holm cannot watch their own practice: give somebody else, or nobody"},
	})
}

func TestPracticeIsCounted(t *testing.T) {
	b := newBook(t)
	b.log(crew, &bath.Practice{Guide: washGuide, Witness: keyHolder})
	alone := b.log(crew, &bath.Practice{Guide: washGuide, Witness: "Nobody"})
	b.log(crew, &bath.Practice{Guide: washGuide, Witness: "ar"})
	b.log(crew, &bath.Practice{Guide: "filter", Witness: "nobody"})
	b.log(keyHolder, &bath.Practice{Guide: washGuide, Witness: officer})
	want := []bath.Practised{
		{Member: crew, Guide: washGuide, Times: 3, Witnessed: 2}, {Member: crew, Guide: "filter", Times: 1}, {Member: keyHolder, Guide: washGuide, Times: 1, Witnessed: 1},
	}
	if diff := cmp.Diff(want, b.state.Practised); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	before := b.state
	b.log(crew, &bath.Strike{Target: alone.Seq, Why: "was interrupted"})
	want[0].Times = 2
	if diff := cmp.Diff(want, b.state.Practised); diff != "" {
		t.Errorf("crossed out (-want +got):\n%s", diff)
	}
	if got := before.Practised[0].Times; got != 3 {
		t.Errorf("the state before has %d now: it was changed", got)
	}
}

// Giving a role answers for the practice so far, whatever the role; a change
// of platoon does not.
func TestARoleAnswersForPractice(t *testing.T) {
	for _, c := range []struct {
		name string
		body *bath.Member
		left int
	}{
		{"made a key holder", &bath.Member{Name: "lee holm", Role: bath.KeyHolder}, 0},
		{"stays crew", &bath.Member{Name: crew, Role: bath.Crew}, 0},
		{"another platoon", &bath.Member{Name: crew, Platoon: "B"}, 1},
		{"somebody else", &bath.Member{Name: "Jo Lund", Role: bath.Crew}, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBook(t)
			b.log(crew, &bath.Practice{Guide: washGuide, Witness: keyHolder})
			before := b.state
			b.log(officer, c.body)
			if got := len(b.state.Practised); got != c.left {
				t.Errorf("%d counts are left, want %d", got, c.left)
			}
			if len(before.Practised) != 1 || before.Practised[0].Member != crew {
				t.Errorf("the state before has %v now: it was changed", before.Practised)
			}
		})
	}
}

func TestPracticeReadsAsALine(t *testing.T) {
	for witness, want := range map[string]string{"Kim Sato": "practised filter, watched by Kim Sato", "nobody": "practised filter, nobody watched"} {
		e := bath.Entry{Body: &bath.Practice{Guide: "filter", Witness: witness}}
		if got := e.Say(units.US); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
