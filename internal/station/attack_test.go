package station_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// guesser makes the test binary act as a program that guesses at a PIN: "PATH
// NAME COUNT".
const guesser = "guess"

// guess prints what came of each try.
func guess(path, _, count string) error {
	most, err := strconv.Atoi(count)
	if err != nil {
		return err
	}
	s, err := station.Open(path, station.Options{Now: func() time.Time { return noon }, PINLine: station.PINLine})
	if err != nil {
		return err
	}
	for range most {
		fmt.Println(try(s, wrongPIN))
	}
	return s.Close()
}

// Three programs guess at once, ten times each. Together they have four wrong
// tries and the one that locks, as one program has.
func TestProgramsThatGuessAtOnceShareTheCount(t *testing.T) {
	const programs, each = 3, 10
	path := pinned(t)
	cmds, outs := make([]*exec.Cmd, programs), make([]*bufio.Scanner, programs)
	for i := range programs {
		cmds[i] = exec.Command(os.Args[0], path, "", strconv.Itoa(each))
		cmds[i].Env = append(os.Environ(), childEnv+"="+guesser)
		out, err := cmds[i].StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmds[i].Start(); err != nil {
			t.Fatal(err)
		}
		outs[i] = bufio.NewScanner(out)
	}
	count := map[string]int{}
	for i, out := range outs {
		for out.Scan() {
			count[out.Text()]++
		}
		if err := cmds[i].Wait(); err != nil {
			t.Errorf("program %d: %v", i, err)
		}
	}
	want := map[string]int{"wrong, 4 left": 1, "wrong, 3 left": 1, "wrong, 2 left": 1, "wrong, 1 left": 1, "locked until 12:01": programs*each - 4}
	if diff := cmp.Diff(want, count); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	s := open(t, path)
	checkTries(t, s, keyPIN, "locked until 12:01")
	if n := len(lines(t, s)); n != 5+5 {
		t.Errorf("the log book has %d lines, want one for each wrong try", n)
	}
}

// One count for all doors and all ways to write a name.
func TestWrongTriesCountAtEveryDoor(t *testing.T) {
	s := asked(t, running(t), &wall{now: noon})
	write(t, s, station.Draft{By: crew, Body: &bath.Intake{Else: bath.ElseNone}})
	if _, err := s.Authorize("ks", wrongPIN); err == nil {
		t.Error("it was taken")
	}
	_, err := s.Record(tools("KIM SATO", wrongPIN))
	checkRefused(t, "record", err, "pin-wrong")
	result := <-s.Submit(tools("kim", wrongPIN))
	checkRefused(t, "submit", result.Err, "pin-wrong")
	checkRefused(t, "set", s.SetPIN(keyHolder, "9031", station.Signature{By: "ks", PIN: wrongPIN}), "pin-wrong")
	_, err = s.Record(tools(" Kim Sato ", wrongPIN))
	checkRefused(t, "fifth", err, "pin-locked")
	checkTries(t, s, keyPIN, "locked until 12:01")
}

// A clock that is set back lengthens a lock and forgets no wrong try.
func TestSettingTheClockBackEscapesNoLock(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, pinned(t), clock)
	checkTries(t, s, wrongPIN, "wrong, 4 left", "wrong, 3 left")
	clock.wait(-48 * time.Hour)
	checkTries(t, s, wrongPIN, "wrong, 2 left", "wrong, 1 left", "locked until 12:01")
	clock.wait(-time.Hour)
	checkTries(t, s, keyPIN, "locked until 11:01")
	clock.wait(-30 * time.Minute)
	checkTries(t, s, keyPIN, "locked until 10:31", "locked until 10:31")
	clock.wait(time.Minute)
	checkTries(t, s, keyPIN, "ok")
}

// Somebody tries whenever the lock lets them, day and night. By the times of the
// locks, 1, 5, 15 and then 60 min for five tries each, a day has 27 of them.
func TestADayOfGuessing(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, pinned(t), clock)
	checked := 0
	for clock.read().Before(noon.AddDate(0, 0, 1)) {
		_, err := s.Authorize(keyHolder, wrongPIN)
		denied, ok := errors.AsType[*station.PINError](err)
		if !ok {
			t.Fatal(err)
		}
		checked++
		if denied.ID == "pin-locked" {
			checkTries(t, s, keyPIN, "locked until "+denied.Until.Format("15:04"))
			clock.wait(denied.Until.Sub(clock.read()))
		}
	}
	t.Logf("%d PINs were tried in a day: 10,000 of four digits take %d days", checked, 10_000/checked)
	if checked != 27*5 {
		t.Errorf("%d PINs could be tried in a day, want 135", checked)
	}
}

// Whoever catches a draft, a session or an id can do nothing new with it.
func TestReplay(t *testing.T) {
	clock := &wall{now: noon}
	s := asked(t, running(t), clock)
	write(t, s, station.Draft{By: crew, Body: &bath.Intake{Else: bath.ElseNone}})
	begun := tools(keyHolder, keyPIN)
	begun.ID = "A1"
	start := write(t, s, begun)[0]
	write(t, s, station.Draft{By: keyHolder, Body: &bath.Abort{Why: "a trial"}}, station.Draft{By: keyHolder, Body: &bath.Wash{
		Items: []bath.Load{{Item: "tool", Count: 2}}, Soil: "light", Time: units.Minutes(1), BathC: 45, Result: bath.ResultAgain,
	}})
	before := lines(t, s)

	forged := rename(officer, "")
	forged.ID = "A1"
	got, err := s.Record(forged)
	if err != nil || len(got) != 1 || got[0].Seq != start.Seq || got[0].Kind() != "start" {
		t.Errorf("another body under a written id: got %v, %v", got, err)
	}
	override := tools("", "").Body.(*bath.Start)
	override.Override = "the chief said so"
	session := station.BeginSession(keyHolder, clock.read(), time.Time{})
	inSession := func(by string, body bath.Body) station.Draft {
		return station.Draft{By: by, Session: session, Body: body}
	}
	for name, tt := range map[string]struct {
		draft station.Draft
		id    string
	}{
		"the officer's act in the key holder's session":     {inSession(officer, &bath.Setting{Station: "Hill Road"}), "pin-missing"},
		"the officer's override in the key holder's":        {inSession(officer, override), "pin-missing"},
		"a start by the officer in the key holder's":        {inSession(officer, tools("", "").Body), "pin-missing"},
		"an officer's act by the key holder":                {inSession(keyHolder, &bath.Setting{Station: "Hill Road"}), "role"},
		"a new officer by the key holder":                   {inSession(keyHolder, &bath.Member{Name: keyHolder, Role: bath.Officer}), "role"},
		"the other's PIN":                                   {station.Draft{By: officer, PIN: keyPIN, Body: &bath.Setting{Station: "Hill Road"}}, "pin-wrong"},
		"crossing out the start by crew":                    {station.Draft{By: crew, Body: &bath.Strike{Target: start.Seq, Why: "x"}}, "role"},
		"crossing out by the officer without a PIN":         {station.Draft{By: officer, Session: session, Body: &bath.Strike{Target: start.Seq, Why: "x"}}, "pin-missing"},
		"the PIN's own line, written by hand":               {station.Draft{By: keyHolder, Body: &bath.PIN{Member: officer, Event: bath.PINSet}}, "by-itself"},
		"a line by nobody, with the right PIN of the other": {station.Draft{PIN: officerPIN, Body: &bath.Setting{Station: "Hill Road"}}, "who"},
	} {
		_, err := s.Record(tt.draft)
		checkRefused(t, name, err, tt.id)
	}
	var acts []bath.Entry
	for _, e := range lines(t, s) {
		if e.Kind() != "pin" {
			acts = append(acts, e)
		}
	}
	var had []bath.Entry
	for _, e := range before {
		if e.Kind() != "pin" {
			had = append(had, e)
		}
	}
	if diff := cmp.Diff(had, acts); diff != "" {
		t.Errorf("something was written (-before +after):\n%s", diff)
	}
}

// With every PIN locked, whoever was there can still write down what happened,
// and what was against the rules is marked.
func TestWhatHappenedIsRecordedWhileEverythingIsLocked(t *testing.T) {
	s := asked(t, running(t), &wall{now: noon})
	for _, who := range []string{officer, keyHolder} {
		for range 5 {
			_, _ = s.Authorize(who, wrongPIN) // a denial, as it should be
		}
		if _, err := s.Authorize(who, wrongPIN); err == nil {
			t.Fatal("it was taken")
		}
	}
	mask := []bath.Load{{Item: "mask", Count: 4}}
	for _, body := range []bath.Body{
		&bath.Reading{PH: 9.9, SampleC: 50, Meter: "M1"}, &bath.Temp{BathC: 58}, &bath.Dose{VolumeL: 1}, &bath.Water{VolumeL: 4, Cause: bath.CauseEvaporation},
		&bath.Filter{Time: units.Minutes(30)}, &bath.Wash{Items: mask, Soil: "normal", Time: units.Minutes(15), BathC: 58, Result: bath.ResultClean},
		&bath.Spill{VolumeL: 20, To: "floor"}, &bath.Hold{Cause: bath.HoldHeater, Why: "it smokes"}, &bath.Duty{What: bath.DutyEyewash},
		&bath.Handover{Note: "the PINs are locked"}, &bath.Drain{VolumeL: 100, Route: bath.RouteHold},
	} {
		entries, err := s.Record(station.Draft{By: keyHolder, Body: body})
		if err != nil {
			t.Errorf("%T: %v", body, err)
			continue
		}
		if w, ok := entries[0].Body.(*bath.Wash); ok && len(w.Outside) == 0 {
			t.Error("15 min at 58 °C for masks is not marked as outside the rule")
		}
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
}
