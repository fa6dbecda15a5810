package station_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// asking is a station that asks for PINs as roles go: a key holder's once in a
// session, an officer's each time. It keeps each event as a note.
func asking(t testing.TB, path string, clock *wall) *station.Station {
	t.Helper()
	return openWith(t, path, station.Options{Now: clock.read, AskPIN: askByRole, PINLine: func(ev station.PINEvent) bath.Body {
		return &bath.Handover{Note: ev.Kind + " " + ev.Member}
	}})
}

func openWith(t testing.TB, path string, o station.Options) *station.Station {
	t.Helper()
	s, err := station.Open(path, o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func askByRole(_ *bath.State, e bath.Entry) station.Ask {
	switch spec, _ := bath.SpecOf(e.Kind()); spec.Role {
	case bath.Officer:
		return station.AskEach
	case bath.KeyHolder:
		return station.AskOnce
	}
	return station.AskNever
}

func degas(by string, given station.PIN) station.Draft {
	return station.Draft{By: by, PIN: given, Body: &bath.Degas{Time: 900}}
}

func rename(by string, given station.PIN) station.Draft {
	return station.Draft{By: by, PIN: given, Body: &bath.Setting{Station: "Hill Road"}}
}

// running is a station with PINs and an open fill: nine lines.
func running(t testing.TB) string {
	t.Helper()
	path := pinned(t)
	write(t, open(t, path), service()...)
	return path
}

func notes(t testing.TB, s *station.Station) (said []string) {
	t.Helper()
	for _, e := range lines(t, s) {
		if n, ok := e.Body.(*bath.Handover); ok {
			said = append(said, n.Note)
		}
	}
	return said
}

func TestRecordAsksForThePIN(t *testing.T) {
	session := station.BeginSession(keyHolder, noon, time.Time{})
	inSession := func(d station.Draft) station.Draft { d.Session = session; return d }
	newcomer := station.Draft{By: officer, PIN: officerPIN, Body: &bath.Member{Name: "Kim Abe", Role: bath.Officer, Initials: "Kim"}}
	tests := []struct {
		name   string
		drafts []station.Draft
		id     string // of the refusal
		left   []string
	}{
		{"nothing asked for", []station.Draft{note("x")}, "", []string{"x"}},
		{"not asked for, and not looked at", []station.Draft{{By: keyHolder, PIN: wrongPIN, Body: &bath.Handover{Note: "x"}}}, "", []string{"x"}},
		{"right", []station.Draft{degas("kim", keyPIN)}, "", nil},
		{"right, twice", []station.Draft{degas("kim", keyPIN), degas("KS", keyPIN)}, "", nil},
		{"missing", []station.Draft{degas(keyHolder, "")}, "pin-missing", nil},
		{"missing once", []station.Draft{degas(keyHolder, keyPIN), degas(keyHolder, "")}, "pin-missing", nil},
		{"wrong", []station.Draft{degas(keyHolder, wrongPIN)}, "pin-wrong", []string{"wrong Kim Sato"}},
		{"wrong, after others", []station.Draft{note("x"), degas(keyHolder, keyPIN), degas(keyHolder, wrongPIN)}, "pin-wrong", []string{"wrong Kim Sato"}},
		{"of another", []station.Draft{degas(keyHolder, officerPIN)}, "pin-wrong", []string{"wrong Kim Sato"}},
		{"none yet, and not looked at", []station.Draft{degas("Jo Park", wrongPIN)}, "", nil},
		{"none yet and none given", []station.Draft{degas("Jo Park", "")}, "", nil},
		{"what the rules refuse anyway", []station.Draft{rename(keyHolder, "")}, "role", nil},
		{"what the rules refuse anyway, and wrong", []station.Draft{rename(keyHolder, wrongPIN)}, "role", nil},
		{"a stranger", []station.Draft{degas("nobody", keyPIN)}, "who", nil},
		{"right, and refused", []station.Draft{degas(keyHolder, keyPIN), {By: crew, Body: &bath.Reading{PH: 15, SampleC: 50}}}, "input", nil},
		{"in the session", []station.Draft{inSession(degas(keyHolder, "")), inSession(degas("KS", ""))}, "", nil},
		{"in the session, and wrong", []station.Draft{inSession(degas(keyHolder, wrongPIN))}, "pin-wrong", []string{"wrong Kim Sato"}},
		{"another's session", []station.Draft{inSession(degas(officer, ""))}, "pin-missing", nil},
		{"an officer's act", []station.Draft{rename(officer, officerPIN)}, "", nil},
		{"an officer's act in a session", []station.Draft{{By: officer, Session: station.BeginSession(officer, noon, time.Time{}), Body: rename("", "").Body}}, "pin-missing", nil},
		{"by one made in the same record", []station.Draft{newcomer, rename("Kim Abe", "")}, "who", nil},
		// From the line before on, "Kim" is Kim Abe.
		{"by a name that changes hands", []station.Draft{newcomer, degas("Kim", keyPIN)}, "", nil},
	}
	whole := running(t)
	write(t, open(t, whole), station.Draft{By: officer, Body: &bath.Member{Name: "Jo Park", Role: bath.KeyHolder}})
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := asking(t, copyOf(t, whole), &wall{now: noon})
			entries, err := s.Record(tt.drafts...)
			switch {
			case tt.id != "":
				checkRefused(t, "record", err, tt.id)
			case err != nil:
				t.Errorf("got %v", err)
			}
			for _, e := range entries {
				if _, ok := e.Body.(*bath.Degas); ok && e.By != keyHolder && tt.drafts[0].By != "Jo Park" {
					t.Errorf("written as by %s", e.By)
				}
			}
			if diff := cmp.Diff(tt.left, notes(t, s)); diff != "" {
				t.Errorf("notes (-want +got):\n%s", diff)
			}
			if n, most := len(lines(t, s)), 10+len(tt.drafts); tt.id != "" && n != 10+len(tt.left) || n > most {
				t.Errorf("the log book has %d lines", n)
			}
			same(t, "state", fresh(t, s), stateOf(t, s))
		})
	}
}

func TestTheSentenceNamesTheAct(t *testing.T) {
	s := asking(t, running(t), &wall{now: noon})
	_, err := s.Record(degas(keyHolder, ""))
	spec, _ := bath.SpecOf("degas")
	checkDenied(t, "missing", err, "pin-missing", `"`+spec.Title+`" asks for the PIN of Kim Sato: type it, or give it in $BATHSIDE_PIN`)
}

func TestWrongTriesOfRecordsLock(t *testing.T) {
	clock := &wall{now: noon}
	s := asking(t, running(t), clock)
	for range 4 {
		_, err := s.Record(degas(keyHolder, wrongPIN))
		checkRefused(t, "wrong", err, "pin-wrong")
	}
	_, err := s.Record(degas(keyHolder, wrongPIN))
	checkRefused(t, "fifth", err, "pin-locked")
	_, err = s.Record(degas(keyHolder, keyPIN))
	checkRefused(t, "right, and locked", err, "pin-locked")
	write(t, s, note("recording what happened goes on"))
	result := <-s.Submit(degas(keyHolder, keyPIN))
	checkRefused(t, "submitted", result.Err, "pin-locked")
	clock.wait(time.Minute)
	write(t, s, degas(keyHolder, keyPIN))
	want := []string{"wrong Kim Sato", "wrong Kim Sato", "wrong Kim Sato", "wrong Kim Sato", "locked Kim Sato", "recording what happened goes on"}
	if diff := cmp.Diff(want, notes(t, s)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
}

// A draft whose entry was committed and not acknowledged is sent again, by a
// face that has forgotten the PIN.
func TestAWrittenDraftIsNotAskedAgain(t *testing.T) {
	s := asking(t, running(t), &wall{now: noon})
	d := degas(keyHolder, keyPIN)
	d.ID = "A1"
	once := write(t, s, d)
	d.PIN = ""
	if diff := cmp.Diff(once, write(t, s, d)); diff != "" {
		t.Errorf("-first +again\n%s", diff)
	}
}

func TestASessionEnds(t *testing.T) {
	tests := []struct {
		name string
		then func(s *station.Station, clock *wall) error
		ends bool
	}{
		{"after 29 min", func(_ *station.Station, c *wall) error { c.wait(29 * time.Minute); return nil }, false},
		{"after 30 min", func(_ *station.Station, c *wall) error { c.wait(30 * time.Minute); return nil }, true},
		{"with a new PIN", func(s *station.Station, c *wall) error {
			c.wait(time.Minute)
			return s.SetPIN(keyHolder, "9031", signed())
		}, true},
		{"not with a lock", func(s *station.Station, _ *wall) error {
			for range 5 {
				try(s, wrongPIN)
			}
			return nil
		}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			clock := &wall{now: noon}
			s := asking(t, running(t), clock)
			m, err := s.Authorize("ks", keyPIN)
			if err != nil {
				t.Fatal(err)
			}
			d := degas("ks", "")
			d.Session = station.BeginSession(m.Name, s.Now(), time.Time{})
			if err := tt.then(s, clock); err != nil {
				t.Fatal(err)
			}
			_, err = s.Record(d)
			if tt.ends {
				checkRefused(t, "after it", err, "pin-missing")
			} else if err != nil {
				t.Error(err)
			}
		})
	}
}

// The first lines of a station are by an officer who cannot have a PIN yet, and
// nobody is asked until there is one.
func TestAStationBeginsWithoutPINs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	o := station.Options{Now: func() time.Time { return noon }, AskPIN: askByRole}
	s, err := station.Create(path, o, first()...)
	if err != nil {
		t.Fatal(err)
	}
	write(t, s, rename(officer, ""))
	if err := errors.Join(s.SetPIN(officer, officerPIN, station.Signature{By: officer}), s.Close()); err != nil {
		t.Fatal(err)
	}
	s = openWith(t, path, o)
	_, err = s.Record(rename(officer, ""))
	checkDenied(t, "with it", err, "pin-missing", "asks for the PIN of Ana Reyes")
	write(t, s, rename(officer, officerPIN))
}

func TestEventsGoIntoTheLogBook(t *testing.T) {
	clock := &wall{now: noon}
	var events []station.PINEvent
	s := openWith(t, newFile(t), station.Options{Now: clock.read, PINLine: func(ev station.PINEvent) bath.Body {
		events = append(events, ev)
		if ev.Kind == "wrong" {
			return nil
		}
		return &bath.Handover{Note: ev.Kind}
	}})
	err := errors.Join(
		s.SetPIN(officer, officerPIN, station.Signature{By: "AR"}),
		s.SetPIN("ks", keyPIN, station.Signature{By: "AR", PIN: officerPIN}),
		s.ResetPIN("ar", officerPIN),
	)
	if err != nil {
		t.Fatal(err)
	}
	for range 6 {
		try(s, wrongPIN)
	}
	wrong := func(n int) station.PINEvent {
		return station.PINEvent{Kind: "wrong", Member: keyHolder, By: keyHolder, Wrong: n}
	}
	want := []station.PINEvent{
		{Kind: "set", Member: officer, By: officer},
		{Kind: "set", Member: keyHolder, By: officer},
		{Kind: "reset", Member: officer, By: officer},
		wrong(1), wrong(2), wrong(3), wrong(4),
		{Kind: "locked", Member: keyHolder, By: keyHolder, Wrong: 5, Locks: 1, Until: noon.Add(time.Minute)},
	}
	if diff := cmp.Diff(want, events); diff != "" {
		t.Errorf("events (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"set", "set", "reset", "locked"}, notes(t, s)); diff != "" {
		t.Errorf("log book (-want +got):\n%s", diff)
	}
	if e := lines(t, s)[6]; e.By != officer || !e.At.Equal(noon) {
		t.Errorf("the key holder's new PIN is written as by %s at %s", e.By, e.At)
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
}

// A rule that refuses the line must not give tries away, and a PIN without its
// line is not set.
func TestARefusedLine(t *testing.T) {
	path := pinned(t)
	s := openWith(t, path, station.Options{Now: func() time.Time { return noon }, PINLine: func(station.PINEvent) bath.Body {
		return &bath.Reading{PH: 15, SampleC: 50}
	}})
	checkTries(t, s, wrongPIN, "wrong, 4 left", "wrong, 3 left")
	checkRefused(t, "set", s.SetPIN(keyHolder, "9031", signed()), "no-fill")
	checkTries(t, open(t, path), wrongPIN, "wrong, 2 left")
	checkTries(t, open(t, path), keyPIN, "ok")
	if n := len(lines(t, s)); n != 5 {
		t.Errorf("the log book has %d lines", n)
	}
}
