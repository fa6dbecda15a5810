package journal_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"bathside/internal/journal"
)

func backUp(t testing.TB, j *journal.Journal, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if _, err := j.Backup(path, nil); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestBackupIsTheJournalByteForByte(t *testing.T) {
	for _, n := range []int{0, 1, 300} {
		j := newJournal(t)
		mustAppend(t, j, numbered(n)...)
		putSide(t, j, "pins", map[string]string{"kim": "hash"})
		path := filepath.Join(t.TempDir(), "copy.db")
		head, err := j.Backup(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		if report := mustVerify(t, path); report.Head != head || report.Entries != n {
			t.Errorf("%d entries: the copy has %d and head %v, want %v", n, report.Entries, report.Head, head)
		}
		original, err := os.ReadFile(j.Path())
		if err != nil {
			t.Fatal(err)
		}
		copied, err := os.ReadFile(path)
		if err != nil || len(copied) == 0 || !bytes.HasPrefix(original, copied) {
			t.Errorf("%d entries: the copy of %d bytes differs, %v", n, len(copied), err)
		}
		if same, err := journal.Open(path); err != nil || same.ID() != j.ID() {
			t.Errorf("the copy is of another log, %v", err)
		}
		if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			t.Errorf("got mode %v, %v", info.Mode(), err)
		}
	}
}

// Three other programs write all the while; each copy is whole and ends where
// its transaction did.
func TestBackupOfAJournalInUse(t *testing.T) {
	j := newJournal(t)
	const writers, each = 3, 60
	waits := make([]func() error, writers)
	for i := range writers {
		cmd, lines, _ := start(t, "append", j.Path(), fmt.Sprint("w", i), fmt.Sprint(each))
		if !lines.Scan() {
			t.Fatal("it does not write")
		}
		waits[i] = func() error {
			for lines.Scan() {
			}
			return cmd.Wait()
		}
	}
	var before uint64
	for i := range 12 {
		path := filepath.Join(t.TempDir(), fmt.Sprint(i, ".db"))
		head, err := j.Backup(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		if head.Seq < before || mustVerify(t, path).Head != head {
			t.Errorf("the copy ends with %v after one of %d entries", head, before)
		}
		if held, err := j.Holds(head); !held || err != nil {
			t.Errorf("its head is not part of the journal, %v", err)
		}
		before = head.Seq
	}
	for _, wait := range waits {
		if err := wait(); err != nil {
			t.Error(err)
		}
	}
	if n := mustVerify(t, j.Path()).Entries; n != writers*each {
		t.Errorf("got %d entries, want %d", n, writers*each)
	}
}

func TestBackupThatFailsLeavesNothing(t *testing.T) {
	broken := errors.New("it looks bad")
	tests := []struct {
		name  string
		ready func(t *testing.T, j *journal.Journal, path string)
		check func(string) error
		want  error
	}{
		{"the name is taken", func(t *testing.T, _ *journal.Journal, path string) {
			if err := os.WriteFile(path, []byte("a letter"), 0o600); err != nil {
				t.Fatal(err)
			}
		}, nil, journal.ErrExists},
		{"the check says no", nil, func(string) error { return broken }, broken},
		{"the name is taken meanwhile", nil, nil, journal.ErrExists},
		{"the journal is damaged", func(t *testing.T, j *journal.Journal, _ string) {
			flip(t, j.Path(), `"id":"id-0002"`, `"id":"id-0009"`)
		}, nil, journal.ErrDamaged},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			j, err := journal.Create(filepath.Join(t.TempDir(), "station.db"))
			if err != nil {
				t.Fatal(err)
			}
			mustAppend(t, j, numbered(3)...)
			path := filepath.Join(dir, "copy.db")
			if tt.ready != nil {
				tt.ready(t, j, path)
			}
			check := tt.check
			if tt.name == "the name is taken meanwhile" {
				check = func(string) error { return os.WriteFile(path, []byte("a letter"), 0o600) }
			}
			if _, err := j.Backup(path, check); !errors.Is(err, tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
			left, err := os.ReadDir(dir)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range left {
				if text, _ := os.ReadFile(filepath.Join(dir, f.Name())); f.Name() != "copy.db" || string(text) != "a letter" {
					t.Errorf("left behind: %s", f.Name())
				}
			}
		})
	}
}

func flip(t testing.TB, path, from, to string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(from)) {
		t.Fatalf("there is no %s", from)
	}
	if err := os.WriteFile(path, bytes.ReplaceAll(data, []byte(from), []byte(to)), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestHolds(t *testing.T) {
	j, other := newJournal(t), newJournal(t)
	mustAppend(t, j, "a", "b")
	mustAppend(t, other, "a", "c", "d")
	first := all(t, j)[1].Prev
	for _, tt := range []struct {
		name string
		head journal.Head
		want bool
	}{
		{"nothing", journal.Head{}, true},
		{"the first entry", journal.Head{Seq: 1, Hash: first}, true},
		{"another first entry", journal.Head{Seq: 1, Hash: journal.Hash{1}}, false},
		{"beyond the end", mustVerify(t, other.Path()).Head, false},
		{"its own head", mustVerify(t, j.Path()).Head, true},
	} {
		if got, err := j.Holds(tt.head); got != tt.want || err != nil {
			t.Errorf("%s: got %v, %v", tt.name, got, err)
		}
	}
}

func TestDrafts(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"station.db", ".station.db", ".station.db.swp", ".station.db.ABCDEFGHIJKLMNOPQRSTUVWXYZ", ".station.db.ABCDEFGHIJKLMNOPQRSTUVWXY1", ".a.ABCDEFGHIJKLMNOPQRSTUVWXY", "x.ABCDEFGHIJKLMNOPQRSTUVWXYZ"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	j, err := journal.Open(newJournal(t).Path())
	if err != nil {
		t.Fatal(err)
	}
	var seen []string
	_, err = j.Backup(filepath.Join(dir, "copy.db"), func(string) error {
		seen, err = journal.Drafts(dir)
		return err
	})
	if err != nil || len(seen) != 2 {
		t.Errorf("while a copy is made got %q, %v", seen, err)
	}
	after, err := journal.Drafts(dir)
	if err != nil || len(after) != 1 || filepath.Base(after[0]) != ".station.db.ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
		t.Errorf("afterwards got %q, %v", after, err)
	}
}
