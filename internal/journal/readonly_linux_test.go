package journal_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"bathside/internal/journal"
)

func TestReadOnlyPlaceCanBeRead(t *testing.T) {
	tests := map[string]struct{ dir, file os.FileMode }{
		"directory and file": {0o555, 0o444},
		"file only":          {0o777, 0o444},
		"directory only":     {0o555, 0o666},
	}
	for name, mode := range tests {
		t.Run(name, func(t *testing.T) {
			j := newJournal(t)
			seed(t, j)
			if err := errors.Join(os.Chmod(j.Path(), mode.file), os.Chmod(filepath.Dir(j.Path()), mode.dir)); err != nil {
				t.Fatal(err)
			}
			asNobody(t, func() {
				if got := len(all(t, j)); got != 2 {
					t.Errorf("read %d entries, want 2", got)
				}
				if err := appendTo(j, "c"); !errors.Is(err, journal.ErrReadOnly) {
					t.Errorf("write: got %v, want ErrReadOnly", err)
				}
			})
			if err := os.Chmod(filepath.Dir(j.Path()), 0o700); err != nil {
				t.Fatal(err)
			}
		})
	}
}

func TestCreateInReadOnlyDirectory(t *testing.T) {
	dir := t.TempDir()
	if err := errors.Join(os.Chmod(filepath.Dir(dir), 0o755), os.Chmod(dir, 0o555)); err != nil {
		t.Fatal(err)
	}
	asNobody(t, func() {
		if _, err := journal.Create(filepath.Join(dir, "station.db")); !errors.Is(err, journal.ErrReadOnly) {
			t.Errorf("got %v, want ErrReadOnly", err)
		}
	})
}

// seed writes two entries and takes the lock file away again, as after a copy
// from a backup.
func seed(t *testing.T, j *journal.Journal) {
	t.Helper()
	mustAppend(t, j, "a", "b")
	if err := errors.Join(os.Remove(j.Path()+".lock"), os.Chmod(filepath.Dir(filepath.Dir(j.Path())), 0o755)); err != nil {
		t.Fatal(err)
	}
}

// asNobody runs fn where permission bits bind: root is not bound by them, so
// its thread takes another identity towards the file system (setfsuid(2)).
func asNobody(t *testing.T, fn func()) {
	t.Helper()
	if os.Geteuid() == 0 {
		const nobody = 65534
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		_ = syscall.Setfsuid(nobody)
		defer func() { _ = syscall.Setfsuid(0) }()
	}
	fn()
}

// The rights to a file may go while it is in use.
func TestRightsLostWhileInUse(t *testing.T) {
	j := newJournal(t)
	seed(t, j)
	dir := filepath.Dir(j.Path())
	if err := errors.Join(os.Chmod(dir, 0o777), os.Chmod(j.Path(), 0o666)); err != nil {
		t.Fatal(err)
	}
	asNobody(t, func() { mustAppend(t, j, "c") })
	for _, test := range []struct {
		name        string
		dir, file   os.FileMode
		read, write error
	}{
		{"to the file", 0o777, 0o000, journal.ErrUnreadable, journal.ErrReadOnly},
		{"to write", 0o777, 0o444, nil, journal.ErrReadOnly},
		{"to the folder", 0o000, 0o666, journal.ErrUnreadable, journal.ErrReadOnly},
	} {
		t.Run(test.name, func(t *testing.T) {
			if err := errors.Join(os.Chmod(j.Path(), test.file), os.Chmod(dir, test.dir)); err != nil {
				t.Fatal(err)
			}
			defer func() { _ = errors.Join(os.Chmod(dir, 0o777), os.Chmod(j.Path(), 0o666)) }()
			asNobody(t, func() {
				if err := j.View(func(*journal.Tx) error { return nil }); !errors.Is(err, test.read) {
					t.Errorf("read: got %v, want %v", err, test.read)
				}
				if err := appendTo(j, "d"); !errors.Is(err, test.write) {
					t.Errorf("write: got %v, want %v", err, test.write)
				}
			})
		})
	}
	asNobody(t, func() {
		if got := len(all(t, j)); got != 3 {
			t.Errorf("got %d entries, want 3", got)
		}
	})
}
