//go:build unix

package journal_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bathside/internal/journal"
)

// Between two transactions anything may happen to the file: nothing is open.
func TestFileChangesHandsWhileInUse(t *testing.T) {
	tests := []struct {
		name   string
		happen func(t *testing.T, path string)
		write  error
	}{
		{"removed", func(t *testing.T, path string) { must(t, os.Remove(path)) }, journal.ErrGone},
		{"folder moved away", func(t *testing.T, path string) { must(t, os.Rename(filepath.Dir(path), filepath.Dir(path)+"-old")) }, journal.ErrGone},
		{"a folder in its place", func(t *testing.T, path string) { must(t, errors.Join(os.Remove(path), os.Mkdir(path, 0o700))) }, journal.ErrNotOurs},
		{"emptied", func(t *testing.T, path string) { must(t, os.Truncate(path, 0)) }, journal.ErrNotOurs},
		{"cut short", func(t *testing.T, path string) { must(t, os.Truncate(path, 9000)) }, journal.ErrDamaged},
		{"another program's file", func(t *testing.T, path string) {
			must(t, os.WriteFile(path, []byte(strings.Repeat("pH 9.8\n", 9000)), 0o600))
		}, journal.ErrNotOurs},
		{"a link to itself", func(t *testing.T, path string) { must(t, errors.Join(os.Remove(path), os.Symlink(path, path))) }, journal.ErrNoPlace},
		{"a copy put in its place", func(t *testing.T, path string) {
			must(t, os.WriteFile(path+".copy", read(t, path), 0o600))
			must(t, os.Rename(path+".copy", path))
		}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "station", "station.db")
			j, err := journal.Create(path)
			if err != nil {
				t.Fatal(err)
			}
			mustAppend(t, j, numbered(200)...)
			test.happen(t, path)
			before, _ := os.ReadFile(path)
			err = appendTo(j, "new")
			if !errors.Is(err, test.write) {
				t.Errorf("write: got %v, want %v", err, test.write)
			}
			if err == nil {
				mustVerify(t, path)
				return
			}
			if err := j.View(func(*journal.Tx) error { return nil }); !errors.Is(err, test.write) {
				t.Errorf("read: got %v, want %v", err, test.write)
			}
			if after, _ := os.ReadFile(path); string(after) != string(before) {
				t.Error("what was put there was changed")
			}
		})
	}
}

// A writer that is in the middle of it when the name is given to another file
// has written into the one that it began with. That is no acknowledged line.
func TestFileReplacedWithinATransaction(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(3)...)
	copied := copyOf(t, read(t, j.Path()))
	aside := filepath.Join(t.TempDir(), "aside.db")
	err := j.Update(func(tx *journal.Tx) error {
		must(t, os.Rename(j.Path(), aside))
		must(t, os.Rename(copied, j.Path()))
		_, err := tx.Append(entry("new"))
		return err
	})
	if !errors.Is(err, journal.ErrGone) {
		t.Errorf("got %v, want ErrGone", err)
	}
	mustVerify(t, aside)
	if got := mustVerify(t, j.Path()).Entries; got != 3 {
		t.Errorf("got %d lines in the new file, want its 3", got)
	}
}

func TestNamesThatNoFileCanHave(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	circle := filepath.Join(dir, "circle")
	must(t, errors.Join(os.WriteFile(file, nil, 0o600), os.Symlink(circle, circle)))
	for name, path := range map[string]string{
		"below a file":      filepath.Join(file, "station.db"),
		"links in a circle": filepath.Join(circle, "station.db"),
		"endless":           filepath.Join(dir, strings.Repeat("x", 300)),
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := journal.Open(path); !errors.Is(err, journal.ErrNoPlace) {
				t.Errorf("open: got %v, want ErrNoPlace", err)
			}
			if _, err := journal.Create(path); !errors.Is(err, journal.ErrNoPlace) {
				t.Errorf("create: got %v, want ErrNoPlace", err)
			}
			if _, err := journal.Verify(path); !errors.Is(err, journal.ErrNoPlace) {
				t.Errorf("verify: got %v, want ErrNoPlace", err)
			}
		})
	}
}

// A folder or a file that is a link is the same log book, with the same locks.
func TestLinksAreTheSameLogBook(t *testing.T) {
	j := newJournal(t)
	dir := t.TempDir()
	folder, file := filepath.Join(dir, "folder"), filepath.Join(dir, "file.db")
	must(t, errors.Join(os.Symlink(filepath.Dir(j.Path()), folder), os.Symlink(j.Path(), file)))
	for i, path := range []string{filepath.Join(folder, "station.db"), file} {
		linked, err := journal.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if linked.ID() != j.ID() {
			t.Errorf("%s: got journal %s, want %s", path, linked.ID(), j.ID())
		}
		mustAppend(t, linked, numbered(2+i)...)
	}
	if got := len(all(t, j)); got != 3 {
		t.Errorf("got %d lines, want the 3 that were written by other names", got)
	}
	for _, where := range []string{dir, filepath.Dir(j.Path())} {
		for _, name := range names(t, where) {
			if strings.HasSuffix(name, ".lock") && where == dir {
				t.Errorf("a lock file of its own beside a link: %s", name)
			}
		}
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
