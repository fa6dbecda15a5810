package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// paused is started, paused after three minutes, one minute ago.
func paused(t testing.TB) *book {
	b := started(t).wait(2 * time.Minute)
	b.log(crew, &bath.Pause{Why: "turn the basket"})
	return b
}

func over(t testing.TB) *book { return started(t).wait(10 * time.Minute) }

func TestPauseRefused(t *testing.T) {
	tagged := func(t testing.TB) *book {
		b := paused(t)
		b.log(crew, &bath.Hold{Cause: bath.HoldLeak, Why: "drips"})
		return b
	}
	brokenOff := func(t testing.TB) *book {
		b := started(t)
		b.log(crew, &bath.Abort{Why: "tones out"})
		return b
	}
	const noWash, up = "no wash is running in bath main: start one first", "the time of the wash was up Mon 2 Mar 07:25: gear out, and log how it came out"
	checkRefusals(t, []refusal{
		{name: "nothing runs", on: ready, body: &bath.Pause{}, id: "no-wash", say: noWash},
		{name: "nothing to go on with", on: ready, by: keyHolder, body: &bath.Resume{}, id: "no-wash", say: noWash},
		{name: "nothing to break off", on: ready, body: &bath.Abort{Why: "tones out"}, id: "no-wash", say: noWash},
		{name: "paused twice", on: paused, body: &bath.Pause{}, id: "paused", say: "the wash is paused already, since Mon 2 Mar 07:18"},
		{name: "never paused", on: started, by: keyHolder, body: &bath.Resume{}, id: "not-paused", say: "the wash is not paused: there is nothing to go on with"},
		{name: "on by crew", on: paused, by: crew, body: &bath.Resume{}, id: "role", say: "is for a key holder or a gear officer"},
		{name: "on before the pause", on: paused, by: keyHolder, ago: 2 * time.Minute, body: &bath.Resume{}, id: "before-pause", say: "the wash was paused Mon 2 Mar 07:18, and Mon 2 Mar 07:17 is before that"},
		{name: "on under a red tag", on: tagged, by: officer, body: &bath.Resume{}, id: "tagged", say: "the bath was red-tagged by Lee Holm: drips; break the wash off, gear out"},
		{name: "before the start", on: started, ago: 4 * time.Minute, body: &bath.Pause{}, id: "before-start", say: "the wash was started Mon 2 Mar 07:15, and Mon 2 Mar 07:12 is before that"},
		{name: "paused when it was over", on: over, body: &bath.Pause{}, id: "over", say: up},
		{name: "broken off when it was over", on: over, body: &bath.Abort{Why: "tones out"}, id: "over", say: up},
		{name: "broken off twice", on: brokenOff, body: &bath.Abort{Why: "tones out"}, id: "no-wash", say: "the wash was broken off Mon 2 Mar 07:16: gear out, and log it"},
		{name: "no reason", on: started, body: &bath.Abort{}, id: "missing", say: "why is it broken off? Say it in one line, like: tones out"},
	})
}

// Two workstations are rarely set to the same second.
func TestAPauseByAClockThatIsBehind(t *testing.T) {
	b := started(t)
	b.late(crew, b.now.Add(-30*time.Second), &bath.Pause{})
	b.wait(time.Minute).checkTimer(10*time.Minute+30*time.Second, 0)
}

func TestAPauseHoldsTheTimer(t *testing.T) {
	b := paused(t)
	b.checkTimer(7*time.Minute, 3*time.Minute)
	b.wait(time.Hour).checkTimer(7*time.Minute, 3*time.Minute)
	b.log(keyHolder, &bath.Resume{})
	b.checkTimer(7*time.Minute, 3*time.Minute)
	b.wait(2*time.Minute).checkTimer(5*time.Minute, 5*time.Minute)
	b.log(crew, &bath.Pause{})
	b.wait(time.Minute).checkTimer(4*time.Minute, 6*time.Minute)
	b.log(officer, &bath.Resume{})
	b.wait(time.Hour).checkTimer(0, 10*time.Minute)
}

func TestAnAbortEndsTheTimer(t *testing.T) {
	tests := []struct {
		name string
		on   func(testing.TB) *book
		ran  time.Duration
	}{
		{"while it runs", func(t testing.TB) *book { return started(t).wait(3 * time.Minute) }, 4 * time.Minute},
		{"while it is paused", func(t testing.TB) *book { return paused(t).wait(20 * time.Minute) }, 3 * time.Minute},
		{"after a pause", func(t testing.TB) *book {
			b := paused(t).wait(20 * time.Minute)
			b.log(keyHolder, &bath.Resume{})
			return b.wait(time.Minute)
		}, 5 * time.Minute},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := tt.on(t)
			b.log(crew, &bath.Abort{Why: "tones out"})
			b.checkTimer(0, tt.ran)
			b.wait(time.Hour).checkTimer(0, tt.ran)
			if r := b.bath().Run; r.Why != "tones out" || !r.Ended.Equal(b.now.Add(-time.Hour)) {
				t.Errorf("got %+v", r)
			}
		})
	}
}

// What was broken off stays in the bath until it is logged, as anything that
// was washed.
func TestABrokenWashIsLogged(t *testing.T) {
	b := started(t)
	b.log(crew, &bath.Abort{Why: "tones out"})
	b.log(crew, &bath.Wash{Items: []bath.Load{toolLoad(2)}, Soil: "normal", Time: 60, BathC: 40, Result: bath.ResultAgain, Start: b.bath().Run.Seq})
	if r := b.bath().Run; r != nil {
		t.Errorf("still in the bath: %+v", r)
	}
}

func TestAPauseIsCorrected(t *testing.T) {
	b := paused(t)
	pause := b.entries[len(b.entries)-1]
	b.log(keyHolder, &bath.Resume{})
	if err := b.strike(crew, pause, &bath.Pause{Why: "a hook slipped"}); err != nil {
		t.Fatal(err)
	}
	if r := b.bath().Run; r.Paused != nil || r.Stood != 60 {
		t.Errorf("got %+v, want a minute's pause that is over", r)
	}
}

func TestTheSmallLinesOfAWashSay(t *testing.T) {
	for want, body := range map[string]bath.Body{
		"wash paused: turn the basket":                                &bath.Pause{Why: "turn the basket"},
		"wash paused":                                                 &bath.Pause{},
		"wash goes on":                                                &bath.Resume{},
		"wash broken off: tones out":                                  &bath.Abort{Why: "tones out"},
		"intake: nothing but smoke":                                   nothingButSmoke(),
		"intake: class a foam besides smoke · car fire":               &bath.Intake{Else: bath.ElseClassA, Incident: "car fire"},
		"intake: blood besides smoke, rinsed cool and disinfected":    &bath.Intake{Else: bath.ElseBlood, Rinsed: true},
		"maker's paper for mask: cleaning guide, rev C, up to 122 °F": onFile("mask", 50),
		"maker's paper for mask: not here yet, accepted by Ana Reyes": &bath.Procedure{Item: "mask", State: bath.PaperPending, Accepted: officer},
		"maker's paper for mask: washed outside the bath":             &bath.Procedure{Item: "mask", State: bath.PaperOutside},
	} {
		if got := (bath.Entry{Body: body}).Say(units.US); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
