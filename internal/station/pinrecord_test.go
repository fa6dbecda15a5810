package station_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/journal"
	"bathside/internal/pin"
	"bathside/internal/station"
)

func TestADamagedPINSaysSo(t *testing.T) {
	keyHash := pin.Cost{MemoryKiB: 8, Passes: 1, Lanes: 1}.Hash(string(keyPIN))
	hash := func(text string) string { return fmt.Sprintf(`{"hash":%q,"set":"2026-03-02T19:00:00Z"}`, text) }
	for name, record := range map[string]string{
		"no JSON":        "7702",
		"no hash":        hash(""),
		"hash cut":       hash("$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ"),
		"tries below 0":  strings.Replace(hash(keyHash), "}", `,"wrong":-100}`, 1),
		"locks below 0":  strings.Replace(hash(keyHash), "}", `,"locks":-1}`, 1),
		"of another age": hash("$argon2id$v=19$m=4000000000,t=1,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"),
	} {
		t.Run(name, func(t *testing.T) {
			path := pinned(t)
			putRecord(t, path, keyHolder, record)
			s := open(t, path)
			_, err := s.Authorize(keyHolder, keyPIN)
			checkDenied(t, "damaged", err, "pin-damaged", "the PIN of Kim Sato is damaged in the file, and none can be checked against it: have a gear officer set a new one")
			if has, err := s.HasPIN(keyHolder); !has || err != nil {
				t.Errorf("got %v, %v: it would be made as if for the first time", has, err)
			}
			if err := s.SetPIN(keyHolder, "9031", signed()); err != nil {
				t.Fatal(err)
			}
			checkTries(t, s, "9031", "ok")
		})
	}
}

// Bytes that change on the disk are found by the journal before they are read.
func TestAPINWhoseBytesChangedSaysSo(t *testing.T) {
	path := copyOf(t, pinned(t))
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.ReplaceAll(whole, []byte("$m=8,t=1"), []byte("$m=9,t=1")), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err = open(t, path).Authorize(keyHolder, keyPIN)
	checkDenied(t, "changed", err, "pin-damaged", "is damaged in the file")
	if _, err := station.Verify(path); !errors.Is(err, station.ErrDamaged) {
		t.Errorf("verify: got %v", err)
	}
}

func putRecord(t testing.TB, path, name, record string) {
	t.Helper()
	j, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = j.Update(func(tx *journal.Tx) error { return tx.Side("pins").Put(station.PINKey(name), []byte(record)) })
	if err != nil {
		t.Fatal(err)
	}
}

// Verify runs at the end of every test here, with the PINs in the file.
func TestNoPINNorHashLeavesTheFile(t *testing.T) {
	path := pinned(t)
	s := open(t, path)
	months(t, s, &wall{now: noon})
	try(s, wrongPIN)
	var export bytes.Buffer
	if err := s.Export(&export); err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{"export": export.Bytes(), "state": []byte(text(t, stateOf(t, s)))}
	for name, data := range out {
		for _, secret := range []string{string(officerPIN), string(keyPIN), string(wrongPIN), "argon2", "hash"} {
			if bytes.Contains(data, []byte(secret)) {
				t.Errorf("%q is in the %s", secret, name)
			}
		}
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(file, []byte("$argon2id$")) || bytes.Contains(file, []byte(officerPIN)) {
		t.Error("the file has no hash, or the PIN itself")
	}
	copied := filepath.Join(t.TempDir(), "copy.db")
	if _, err := station.Import(copied, &export); err != nil {
		t.Fatal(err)
	}
	if has, err := open(t, copied).HasPIN(officer); has || err != nil {
		t.Errorf("the imported copy: got %v, %v", has, err)
	}
}

func TestAPINIsNotPrinted(t *testing.T) {
	d := station.Draft{By: keyHolder, PIN: keyPIN}
	secret := regexp.MustCompile(string(keyPIN) + fmt.Sprintf("|%x", []byte(keyPIN)))
	for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%d"} {
		for _, value := range []any{d, &d, []station.Draft{d}, d.PIN, station.Signature{PIN: keyPIN}} {
			if got := fmt.Sprintf(verb, value); secret.MatchString(got) {
				t.Errorf("%s: %s", verb, got)
			}
		}
	}
	data, err := json.Marshal(d)
	if err != nil || secret.Match(data) {
		t.Errorf("%s, %v", data, err)
	}
}

// strings.EqualFold is what the roster compares names by.
func TestOneNameOneKey(t *testing.T) {
	letters := []rune("kKKsSſißẞİıI åÅÅ")
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.StringOf(rapid.SampledFrom(letters))
		a, b := name.Draw(rt, "a"), name.Draw(rt, "b")
		if got, want := station.PINKey(a) == station.PINKey(b), strings.EqualFold(a, b); got != want {
			rt.Errorf("%q and %q: got %v, want %v", a, b, got, want)
		}
	})
}
