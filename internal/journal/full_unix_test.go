//go:build unix

package journal_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"

	"bathside/internal/journal"
)

// The system ends a write in the middle where the file would pass the limit
// for its size (setrlimit(2), RLIMIT_FSIZE), just as a disk does that fills
// up. The limit holds for a whole process, so another one tries them all.
func TestFullDiskAtEverySize(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(60)...)
	out, err := command("full", j.Path()).Output()
	if err != nil {
		t.Fatal(err)
	}
	var full, stored int
	if _, err := fmt.Sscanf(string(out), "%d full, %d stored", &full, &stored); err != nil || full < 80 || stored < 9 {
		t.Fatalf("got %q, %v: too few of either", out, err)
	}
	t.Logf("disk full at %d sizes: each an ErrFull with all as before, and %d that were large enough", full, stored)
}

func init() { children["full"] = fillUp }

// fillUp tries to store under every limit, and prints how often there was room.
func fillUp(path string) error {
	signal.Ignore(syscall.SIGXFSZ)
	whole, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	full, stored := 0, 0
	for _, long := range []int{10, 30_000, 300_000} { // the last two make the file grow
		enough := stored + 3
		for limit := 0; stored < enough; limit += 1501 + long/10 {
			if err := overwrite(path, whole); err != nil {
				return err
			}
			got, err := storeUnder(path, uint64(limit), long)
			switch after, readErr := os.ReadFile(path); {
			case readErr != nil:
				return readErr
			case err == nil && got == 61:
				stored++
			case errors.Is(err, journal.ErrFull) && !errors.Is(err, journal.ErrUnsure) && got == 60 && len(after) >= len(whole):
				full++
			default:
				return fmt.Errorf("%d bytes under a limit of %d: %d lines, %w", long, limit, got, err)
			}
		}
	}
	// The test verifies what is left: all as before the first try.
	fmt.Printf("%d full, %d stored\n", full, stored)
	return overwrite(path, whole)
}

// overwrite does not cut the file to nothing first, which some file systems
// take for a reason to flush it.
func overwrite(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(content, 0)
	return errors.Join(err, f.Truncate(int64(len(content))), f.Close())
}

// storeUnder stores one line of that length while the file may not pass the
// limit, then verifies without it and counts the lines.
func storeUnder(path string, limit uint64, long int) (lines int, err error) {
	j, err := journal.Open(path)
	if err != nil {
		return 0, err
	}
	var none syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &none); err != nil {
		return 0, err
	}
	some := none
	some.Cur = limit
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &some); err != nil {
		return 0, err
	}
	stored := j.Update(func(tx *journal.Tx) error {
		e := entry("one-more")
		e.Body = json.RawMessage(`"` + strings.Repeat("x", long) + `"`)
		_, err := tx.Append(e)
		return err
	})
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &none); err != nil {
		return 0, err
	}
	report, err := journal.Verify(path)
	if err := errors.Join(err, journal.CheckPages(path)); err != nil {
		return 0, err
	}
	var out bytes.Buffer
	if err := j.Export(&out); err != nil || bytes.Count(out.Bytes(), []byte("\n")) != report.Entries {
		return 0, fmt.Errorf("export: %d bytes, %w", out.Len(), err)
	}
	return report.Entries, stored
}
