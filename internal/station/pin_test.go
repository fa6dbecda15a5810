package station_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// The PINs of these tests, too long to come up in a file by chance.
const (
	officerPIN station.PIN = "5802139746"
	keyPIN     station.PIN = "7702641935"
	wrongPIN   station.PIN = "4461920857"
)

// pinned is a station file whose officer and key holder have PINs.
func pinned(t testing.TB) string {
	t.Helper()
	path := newFile(t)
	s := open(t, path)
	if err := s.SetPIN(officer, officerPIN, station.Signature{By: officer}); err != nil {
		t.Fatal(err)
	}
	if err := s.SetPIN(keyHolder, keyPIN, signed()); err != nil {
		t.Fatal(err)
	}
	return path
}

func signed() station.Signature { return station.Signature{By: officer, PIN: officerPIN} }

// try gives what came of one try of the key holder's PIN: "ok", "wrong, 3
// left", "locked until 12:01" or the error.
func try(s *station.Station, given station.PIN) string {
	_, err := s.Authorize(keyHolder, given)
	denied, ok := errors.AsType[*station.PINError](err)
	switch {
	case err == nil:
		return "ok"
	case !ok:
		return err.Error()
	case denied.ID == "pin-wrong":
		return fmt.Sprintf("wrong, %d left", denied.Left)
	case denied.ID == "pin-locked":
		return "locked until " + denied.Until.Format("15:04")
	}
	return denied.ID
}

func checkTries(t testing.TB, s *station.Station, given station.PIN, want ...string) {
	t.Helper()
	var got []string
	for range want {
		got = append(got, try(s, given))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// checkDenied looks at the kind of a denial and the sentence that the crew
// reads.
func checkDenied(t testing.TB, what string, err error, id, say string) {
	t.Helper()
	denied, ok := errors.AsType[*station.PINError](err)
	if !ok || denied.ID != id {
		t.Errorf("%s: got %v, want %s", what, err, id)
		return
	}
	if got := station.Explain(err, "x"); !strings.Contains(got, say) {
		t.Errorf("%s: got %q, want %q in it", what, got, say)
	}
	checkRefused(t, what, err, id) // as faces see it that know no PINs
	for _, secret := range []station.PIN{officerPIN, keyPIN, wrongPIN} {
		if strings.Contains(err.Error(), string(secret)) {
			t.Errorf("%s: it gives a PIN away: %v", what, err)
		}
	}
}

func TestAuthorize(t *testing.T) {
	s := open(t, pinned(t))
	for _, who := range []string{keyHolder, "ks", " kim "} {
		if m, err := s.Authorize(who, keyPIN); err != nil || m.Name != keyHolder || m.Role != bath.KeyHolder {
			t.Errorf("%q: got %v, %v", who, m, err)
		}
	}
	_, err := s.Authorize("nobody", keyPIN)
	checkRefused(t, "a stranger", err, "who")
	_, err = s.Authorize(crew, keyPIN)
	checkDenied(t, "without a PIN", err, "pin-none", "Lee Holm has no PIN yet: have a gear officer set one")
	_, err = s.Authorize(keyHolder, "")
	checkDenied(t, "nothing given", err, "pin-missing", "the PIN of Kim Sato: type it")
	_, err = s.Authorize(keyHolder, officerPIN)
	checkDenied(t, "of another", err, "pin-wrong", "4 tries are left before it is locked for 1 min; type it again, or have a gear officer set a new one")
}

func TestWhoMaySetAPIN(t *testing.T) {
	const fresh station.PIN = "9031"
	own := func(name string, proof station.PIN) station.Signature { return station.Signature{By: name, PIN: proof} }
	tests := []struct {
		name, whose string
		fresh       station.PIN
		by          station.Signature
		id          string // of the refusal
	}{
		{"officer for another", keyHolder, fresh, signed(), ""},
		{"officer for one without", crew, fresh, signed(), ""},
		{"own with the old one", keyHolder, fresh, own(keyHolder, keyPIN), ""},
		{"by initials", "KS", fresh, own("ks", keyPIN), ""},
		{"officer, own", officer, fresh, signed(), ""},
		{"officer, own, unsigned", officer, fresh, own(officer, ""), "pin-missing"},
		{"officer, wrong", keyHolder, fresh, own(officer, wrongPIN), "pin-wrong"},
		{"own, wrong", keyHolder, fresh, own(keyHolder, wrongPIN), "pin-wrong"},
		{"own, none yet", crew, fresh, own(crew, fresh), "pin-none"},
		{"key holder for another", crew, fresh, own(keyHolder, keyPIN), "role"},
		{"nobody", keyHolder, fresh, station.Signature{}, "who"},
		{"for nobody", "", fresh, signed(), "who"},
		{"too short", keyHolder, "903", signed(), "pin-weak"},
		{"in a row", keyHolder, "1234", signed(), "pin-weak"},
	}
	whole := pinned(t)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := open(t, copyOf(t, whole))
			err := s.SetPIN(tt.whose, tt.fresh, tt.by)
			if tt.id != "" {
				checkRefused(t, "set", err, tt.id)
				checkTries(t, s, keyPIN, "ok")
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if _, err := s.Authorize(tt.whose, tt.fresh); err != nil {
				t.Errorf("the new one: %v", err)
			}
		})
	}
}

func copyOf(t *testing.T, path string) string {
	t.Helper()
	copied := filepath.Join(t.TempDir(), "station.db")
	copyFile(t, path, copied)
	return copied
}

// A station begins with an officer who has no PIN, and nobody to sign.
func TestTheFirstPINIsAnOfficersOwn(t *testing.T) {
	s := open(t, newFile(t))
	checkRefused(t, "a key holder's", s.SetPIN(keyHolder, keyPIN, station.Signature{By: keyHolder}), "pin-none")
	checkRefused(t, "for a key holder", s.SetPIN(keyHolder, keyPIN, station.Signature{By: officer}), "pin-none")
	write(t, s, station.Draft{By: officer, Body: &bath.Member{Name: "Noor Haddad", Role: bath.Officer}})
	if err := s.SetPIN(officer, officerPIN, station.Signature{By: officer}); err != nil {
		t.Fatal(err)
	}
	checkRefused(t, "a second officer's", s.SetPIN("Noor Haddad", keyPIN, station.Signature{By: "Noor Haddad"}), "pin-none")
	for name, want := range map[string]bool{officer: true, "ar": true, "Noor Haddad": false, crew: false} {
		if got, err := s.HasPIN(name); got != want || err != nil {
			t.Errorf("%s: got %v, %v", name, got, err)
		}
	}
}

func TestANewPINEndsALock(t *testing.T) {
	tests := map[string]func(*station.Station) error{
		"by an officer": func(s *station.Station) error { return s.SetPIN(keyHolder, "9031", signed()) },
		"by reset":      func(s *station.Station) error { return s.ResetPIN(keyHolder, "9031") },
	}
	for name, anew := range tests {
		t.Run(name, func(t *testing.T) {
			s := open(t, pinned(t))
			for range 5 {
				try(s, wrongPIN)
			}
			if err := s.SetPIN(keyHolder, "9031", station.Signature{By: keyHolder, PIN: keyPIN}); err == nil {
				t.Error("the locked one was good for a new one")
			}
			if err := anew(s); err != nil {
				t.Fatal(err)
			}
			checkTries(t, s, "9031", "ok")
			checkTries(t, s, keyPIN, "wrong, 4 left")
		})
	}
}

func TestResetAsksForAGoodPINOfAMember(t *testing.T) {
	s := open(t, pinned(t))
	checkRefused(t, "weak", s.ResetPIN(officer, "0000"), "pin-weak")
	checkRefused(t, "nobody", s.ResetPIN("nobody", "9031"), "who")
	if _, err := s.Authorize(officer, officerPIN); err != nil {
		t.Error(err)
	}
}

func TestWhoLeavesLosesThePIN(t *testing.T) {
	s := open(t, pinned(t))
	write(t, s, station.Draft{By: officer, Body: &bath.Member{Name: "KIM sato", Left: true}})
	checkTries(t, s, keyPIN, try(s, "")) // as somebody who is not on the roster
	write(t, s, station.Draft{By: officer, Body: &bath.Member{Name: keyHolder}})
	checkTries(t, s, keyPIN, "pin-none")
}

func TestAuthorizeAtTheRealCost(t *testing.T) {
	defer station.AtRealCost()()
	path := pinned(t)
	file, err := os.ReadFile(path)
	if err != nil || !bytes.Contains(file, []byte("$argon2id$v=19$m=19456,t=2,p=1$")) {
		t.Errorf("no such hash in the file, %v", err)
	}
	s := open(t, path)
	checkTries(t, s, wrongPIN, "wrong, 4 left")
	checkTries(t, s, keyPIN, "ok")
}
