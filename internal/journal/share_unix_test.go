//go:build unix && !solaris && !aix

package journal_test

import (
	"errors"
	"os"
	"syscall"
	"testing"
	"time"

	"bathside/internal/journal"
)

// The kernel grants a lock that nobody waits for any more; it must be given
// back, or the station stands still.
func TestLateLockIsGivenBack(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	f, err := os.OpenFile(j.Path()+".lock", os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX); err != nil {
		t.Fatal(err)
	}
	j.LockWait = 20 * time.Millisecond
	for range 3 {
		if err := appendTo(j, "b"); !errors.Is(err, journal.ErrInUse) {
			t.Errorf("got %v, want ErrInUse", err)
		}
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_UN); err != nil {
		t.Fatal(err)
	}
	j.LockWait = 0
	mustAppend(t, j, "b")
}

func TestLockFileHasTheJournalsPermissions(t *testing.T) {
	j := newJournal(t)
	if err := os.Chmod(j.Path(), 0o660); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, "a")
	info, err := os.Stat(j.Path() + ".lock")
	if err != nil {
		t.Fatal(err)
	}
	if got := info.Mode().Perm(); got != 0o660 {
		t.Errorf("got %o, want 660", got)
	}
}
