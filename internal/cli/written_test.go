package cli

import (
	"bytes"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// atDesk runs bathside as a process of its own in dir, with PINs in its
// environment, and gives all that it said.
func atDesk(t *testing.T, dir, pin, fresh string, code int, args ...string) []byte {
	t.Helper()
	cmd := exec.Command("bathside", append([]string{"--data", filepath.Join(dir, "desk", "station.db")}, args...)...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "TZ=UTC", "BATHSIDE_AS=", "XDG_DATA_HOME="+dir, pinName+"="+pin, newPINName+"="+fresh)
	out, err := cmd.CombinedOutput()
	got := 0
	if exit := new(exec.ExitError); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		t.Fatal(err)
	}
	if got != code {
		t.Errorf("%s: got code %d, want %d\n%s", strings.Join(args, " "), got, code, out)
	}
	return out
}

// desk does with a station all that writes something, and gives the folder and
// what was said.
func desk(t *testing.T) (dir string, said []byte) {
	t.Helper()
	dir = t.TempDir()
	do := func(pin, fresh string, code int, args ...string) {
		t.Helper()
		said = append(said, atDesk(t, dir, pin, fresh, code, args...)...)
	}
	const wrongPIN = "446192085731"
	do("", typedPIN, 0, "setup", "--station", "Drill", "--tank", "64gal", "--officer", "Ana Reyes")
	do(typedPIN, "", 0, "log", "member", "--name", "Kim Vu", "--role", "keyholder", "--as", "Reyes")
	do(typedPIN, freshPIN, 0, "pin", "set", "--member", "Vu", "--as", "Reyes")
	do(typedPIN, freshPIN, 2, "pin", "set", "--member", "Vu", "--as", "Vu")
	do(typedPIN, typedPIN+typedPIN, 2, "pin", "set", "--as", "Reyes")
	for range 6 {
		do(freshPIN, "", 2, "log", "setting", "--limit", "0.4", "--as", "Reyes", "--json")
	}
	do(typedPIN, "", 2, "log", "setting", "--limit", "0.4", "--as", "Reyes", "--now", "2026-03-01T06:00:00Z")
	do(wrongPIN, "", 0, "log", "handover", "--note", "nobody is asked", "--as", "Vu")
	do("", typedPIN, 0, "setup", "--reset-pin", "Reyes")
	for _, args := range [][]string{
		{"status"}, {"status", "--json"}, {"handover"}, {"handover", "--json"}, {"tally"}, {"paths"}, {"verify"}, {"export"}, {"export", "lines.jsonl"},
		{"backup", "--as", "Reyes"}, {"restore", "desk/backups/*", "--lose", "1", "--as", "Reyes"}, {"doctor"}, {"doctor", "--json"},
	} {
		if args[0] == "restore" {
			made, err := filepath.Glob(filepath.Join(dir, args[1]))
			if err != nil || len(made) != 1 {
				t.Fatalf("got %q, %v", made, err)
			}
			args[1] = made[0]
		}
		do(typedPIN, freshPIN, 0, args...)
	}
	do(typedPIN, freshPIN, 0, "--data", filepath.Join(dir, "copy", "station.db"), "import", "lines.jsonl")
	return dir, said
}

func TestWhatIsWritten(t *testing.T) {
	t.Parallel()
	dir, said := desk(t)
	t.Run("holds no PIN", func(t *testing.T) { holdsNoPIN(t, dir, said) })
	t.Run("is for this account only", func(t *testing.T) { isForThisAccount(t, dir) })
}

// holdsNoPIN looks for PINs as they were typed and in other letters.
func holdsNoPIN(t *testing.T, dir string, said []byte) {
	written := map[string][]byte{"what was said": said}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			written[path], err = os.ReadFile(path)
		}
		return err
	})
	if err != nil || len(written) < 7 { // the log book, its lock, a backup, the one replaced, lines, a copy
		t.Fatalf("%d things were written, %v", len(written), err)
	}
	for _, pin := range []string{typedPIN, freshPIN} {
		for _, form := range []string{pin, hex.EncodeToString([]byte(pin)), base64.StdEncoding.EncodeToString([]byte(pin))} {
			for name, data := range written {
				if bytes.Contains(data, []byte(form)) {
					t.Errorf("%s is in %s", form, name)
				}
			}
		}
	}
}

func isForThisAccount(t *testing.T, dir string) {
	if runtime.GOOS == "windows" {
		t.Skip("files have no modes there")
	}
	seen := 0
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		want := fs.FileMode(0o600)
		if d.IsDir() {
			want = 0o700
		}
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s: got mode %o, want %o", path, got, want)
		}
		seen++
		return nil
	})
	if err != nil || seen < 9 {
		t.Errorf("saw %d files and folders, %v", seen, err)
	}
}
