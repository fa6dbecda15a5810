package station_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// What ruling D3 of the trade names: once in a wash session, and each time.
var (
	once = []bath.Kind{"start", "resume"}
	each = []bath.Kind{"titration", "decision", "release", "member", "tank", "procedure", "setting"}
)

func TestWhoIsAskedForAPIN(t *testing.T) {
	st := stateOf(t, open(t, newFile(t)))
	asks := map[station.Ask][]bath.Kind{}
	for _, spec := range bath.Specs() {
		ask := station.AskPIN(st, bath.Entry{By: crew, Body: spec.New()})
		asks[ask] = append(asks[ask], spec.Kind)
		if officers := spec.Role == bath.Officer; officers != (ask == station.AskEach) {
			t.Errorf("%s: got %d", spec.Kind, ask)
		}
	}
	if diff := cmp.Diff(once, asks[station.AskOnce]); diff != "" {
		t.Errorf("once in a session (-want +got):\n%s", diff)
	}
	for _, k := range each {
		if !slices.Contains(asks[station.AskEach], k) {
			t.Errorf("%s: it is not asked for each time", k)
		}
	}
	for by, want := range map[string]station.Ask{officer: station.AskEach, keyHolder: station.AskNever, crew: station.AskNever, "nobody": station.AskNever} {
		if got := station.AskPIN(st, bath.Entry{By: by, Body: &bath.Strike{Target: 4}}); got != want {
			t.Errorf("crossing out by %s: got %d, want %d", by, got, want)
		}
	}
	if got := station.AskPIN(st, bath.Entry{By: officer, Body: &bath.Start{Override: "trial"}}); got != station.AskEach {
		t.Errorf("an override: got %d, want %d", got, station.AskEach)
	}
}

// asked is a station as the program opens it.
func asked(t testing.TB, path string, clock *wall) *station.Station {
	t.Helper()
	return openWith(t, path, station.Options{Now: clock.read, Catalog: shipped(), AskPIN: station.AskPIN, PINLine: station.PINLine})
}

func tools(by string, given station.PIN) station.Draft {
	return station.Draft{By: by, PIN: given, Body: &bath.Start{
		Items: []bath.Load{{Item: "tool", Count: 2}}, Soil: "light", Time: units.Minutes(3), BathC: 45, Checked: true, Lids: true,
	}}
}

// A key holder's PIN holds for the session, and an officer's for one act.
func TestPINsOfASession(t *testing.T) {
	clock := &wall{now: noon}
	s := asked(t, running(t), clock)
	write(t, s, station.Draft{By: crew, Body: &bath.Intake{Else: bath.ElseNone}})
	_, err := s.Record(tools(keyHolder, ""))
	checkDenied(t, "a start", err, "pin-missing", `"Start a wash" asks for the PIN of Kim Sato`)
	write(t, s, tools(keyHolder, keyPIN))
	session := station.BeginSession(keyHolder, clock.read(), time.Time{})
	in := func(b bath.Body) station.Draft { return station.Draft{By: keyHolder, Session: session, Body: b} }
	write(t, s, in(&bath.Pause{}), in(&bath.Resume{}), in(&bath.Abort{Why: "tones out"}))
	write(t, s, note("recording asks for none"), station.Draft{By: keyHolder, Body: &bath.Temp{BathC: 46}})
	_, err = s.Record(in(&bath.Setting{Station: "Hill Road"}))
	checkRefused(t, "an officer's act", err, "role")
	_, err = s.Record(station.Draft{By: officer, Body: &bath.Setting{Station: "Hill Road"}})
	checkRefused(t, "an officer's act without a PIN", err, "pin-missing")
	clock.wait(30 * time.Minute)
	_, err = s.Record(in(&bath.Resume{}))
	checkRefused(t, "no wash is paused", err, "no-wash")
}

// Nobody may write into the log book what happened to a PIN, nor cross it out.
func TestOnlyTheStationWritesOfPINs(t *testing.T) {
	s := asked(t, pinned(t), &wall{now: noon})
	forged := station.Draft{By: keyHolder, Body: &bath.PIN{Member: officer, Event: bath.PINReset}}
	_, err := s.Record(forged)
	checkRefused(t, "forged", err, "by-itself")
	_, err = station.Create(t.TempDir()+"/new.db", station.Options{}, append(first(), forged)...)
	checkRefused(t, "forged at the start", err, "by-itself")
	try(s, wrongPIN)
	_, err = s.Record(station.Draft{By: officer, PIN: officerPIN, Body: &bath.Strike{Target: 6, Why: "a slip"}})
	checkRefused(t, "crossed out", err, "input")
	want := []string{"a wrong PIN was given for Kim Sato"}
	if diff := cmp.Diff(want, said(t, s)[5:]); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func said(t testing.TB, s *station.Station) (out []string) {
	t.Helper()
	for _, e := range lines(t, s) {
		out = append(out, e.Say(units.US))
	}
	return out
}

// No PIN and no hash leaves the station file, whatever is done with it.
func TestPINsStayInTheFile(t *testing.T) {
	path := newFile(t)
	s := asked(t, path, &wall{now: noon})
	errs := []error{
		s.SetPIN(officer, officerPIN, station.Signature{By: officer}),
		s.SetPIN(keyHolder, keyPIN, signed()),
		s.ResetPIN(crew, wrongPIN),
		s.SetPIN(crew, keyPIN, station.Signature{By: keyHolder, PIN: officerPIN}),
	}
	for range 6 {
		_, err := s.Record(rename(officer, wrongPIN))
		errs = append(errs, err)
	}
	d := rename(officer, officerPIN)
	var export bytes.Buffer
	if err := s.Export(&export); err != nil {
		t.Fatal(err)
	}
	all := export.String() + errors.Join(errs...).Error() + strings.Join(said(t, s), "\n")
	for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%d", "%x"} {
		all += fmt.Sprintf(verb, d)
	}
	for _, secret := range []string{string(officerPIN), string(keyPIN), string(wrongPIN), "argon2", `"hash"`} {
		if strings.Contains(all, secret) {
			t.Errorf("%q is in what left the file", secret)
		}
	}
	want := []string{
		"PIN of Ana Reyes set", "PIN of Kim Sato set", "PIN of Lee Holm set anew by set-up, unsigned",
		"a wrong PIN was given for Ana Reyes", "a wrong PIN was given for Ana Reyes", "a wrong PIN was given for Ana Reyes",
		"a wrong PIN was given for Ana Reyes", "PIN of Ana Reyes locked after wrong tries",
	}
	if diff := cmp.Diff(want, said(t, s)[5:]); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if file, err := os.ReadFile(path); err != nil || bytes.Contains(file, []byte(officerPIN)) {
		t.Errorf("the PIN itself is in the file, %v", err)
	}
}
