package station_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// Every error is one sentence that says what is wrong and what to do; those of
// the file name it.
func TestErrorsAreExplained(t *testing.T) {
	const path = "/srv/station.db"
	tests := []struct {
		err       error
		say, next string
	}{
		{station.ErrInUse, "is being used by another program", "wait a moment and do it again"},
		{station.ErrNotExist, "there is no station at", "run bathside setup"},
		{station.ErrExists, "there is a station at", "name another file with --data"},
		{station.ErrNotOurs, "is not a Bathside log book", "name another file"},
		{station.ErrNewer, "was written by a newer Bathside", "install that version"},
		{station.ErrDamaged, "is damaged", "run bathside verify"},
		{station.ErrReadOnly, "may not be written to", "check the rights"},
		{station.ErrFull, "the disk with", "free some room"},
		{station.ErrDisk, "the disk with", "write it on paper"},
		{errors.Join(station.ErrUnsure, station.ErrFull), "failed as the line was sealed", "look whether it is in the log book"},
		{errors.Join(station.ErrGone, station.ErrNotExist), "was taken away", "restore a backup"},
		{station.ErrReplaced, "another log book", "look at what it says now"},
		{station.ErrNoPlace, "no station can be at", "name another file"},
		{station.ErrUnreadable, "may not be read", "check the rights"},
	}
	for _, tt := range tests {
		got := station.Explain(fmt.Errorf("read journal: %w", tt.err), path)
		for _, part := range []string{tt.say, tt.next, path} {
			if !strings.Contains(got, part) {
				t.Errorf("%v: got %q, want %q in it", tt.err, got, part)
			}
		}
	}
	refusal := &bath.Refusal{ID: "x", Say: "no fill is open: log the fill first"}
	if got := station.Explain(fmt.Errorf("record: %w", refusal), path); got != refusal.Say {
		t.Errorf("got %q", got)
	}
	if got := station.Explain(errors.New("odd"), path); got != "odd" {
		t.Errorf("got %q", got)
	}
	if got := station.Explain(nil, path); got != "" {
		t.Errorf("got %q", got)
	}
}

func TestOpenTellsFilesApart(t *testing.T) {
	dir := t.TempDir()
	letter := filepath.Join(dir, "letter")
	if err := os.WriteFile(letter, []byte(strings.Repeat("Dear Ana, ", 2000)), 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]error{filepath.Join(dir, "none"): station.ErrNotExist, letter: station.ErrNotOurs} {
		if _, err := station.Open(path, station.Options{}); !errors.Is(err, want) {
			t.Errorf("%s: got %v, want %v", path, err, want)
		}
	}
}
