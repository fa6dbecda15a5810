package journal_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/journal"
)

// place is a journal of three entries with a backup of the first two.
func place(t *testing.T) (path, backup string) {
	t.Helper()
	j, err := journal.Create(filepath.Join(t.TempDir(), "station.db"))
	if err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, "a", "b")
	backup = backUp(t, j, "backup.db")
	mustAppend(t, j, "c")
	return j.Path(), backup
}

func yes(journal.Difference) error { return nil }

func TestRestoreKeepsTheOldFile(t *testing.T) {
	path, backup := place(t)
	if err := os.Chmod(path, 0o660); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	console, err := journal.Open(path) // of somebody who goes on
	if err != nil {
		t.Fatal(err)
	}
	aside := filepath.Join(filepath.Dir(path), "old.db")
	var told journal.Difference
	head, err := journal.Restore(path, backup, aside, nil, func(d journal.Difference) error { told = d; return nil })
	if err != nil {
		t.Fatal(err)
	}
	if want := (journal.Difference{Copy: head, Lost: 1}); told != want || head.Seq != 2 {
		t.Errorf("told %+v, want %+v", told, want)
	}
	if kept, err := os.ReadFile(aside); err != nil || !bytes.Equal(kept, before) {
		t.Errorf("the old file is not as it was, %v", err)
	}
	mustAppend(t, console, "d")
	if report := mustVerify(t, path); report.Entries != 3 {
		t.Errorf("got %d entries, want the two and one more", report.Entries)
	}
	if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o660 {
		t.Errorf("got mode %v, %v", info.Mode(), err)
	}
	if mustVerify(t, backup).Entries != 2 {
		t.Error("the backup changed")
	}
	left, err := journal.Drafts(filepath.Dir(path))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %q, %v", left, err)
	}
}

func TestWhatRestoreWouldChange(t *testing.T) {
	tests := []struct {
		name string
		then func(t *testing.T, path, backup string)
		want journal.Difference
	}{
		{"the same", func(t *testing.T, path, backup string) { copyOver(t, backup, path) }, journal.Difference{}},
		{"longer", func(*testing.T, string, string) {}, journal.Difference{Lost: 1}},
		{"another history from its second entry on", func(t *testing.T, path, _ string) {
			var lines bytes.Buffer
			if err := mustOpen(t, path).Export(&lines); err != nil {
				t.Fatal(err)
			}
			first, _, _ := strings.Cut(lines.String(), "\n")
			again := filepath.Join(t.TempDir(), "again.db")
			if _, err := journal.Import(again, strings.NewReader(first)); err != nil {
				t.Fatal(err)
			}
			mustAppend(t, mustOpen(t, again), "x", "y", "z")
			copyOver(t, again, path)
		}, journal.Difference{Lost: 3}},
		{"another log", func(t *testing.T, path, _ string) {
			other := newJournal(t)
			mustAppend(t, other, "x")
			copyOver(t, other.Path(), path)
		}, journal.Difference{Other: true, Lost: 1}},
		{"another log without entries", func(t *testing.T, path, _ string) { copyOver(t, newJournal(t).Path(), path) }, journal.Difference{Other: true}},
		{"damaged in what the backup has", func(t *testing.T, path, _ string) { flip(t, path, `"id":"b"`, `"id":"q"`) }, journal.Difference{Lost: 2}},
		{"damaged in what it has not", func(t *testing.T, path, _ string) { flip(t, path, `"id":"c"`, `"id":"q"`) }, journal.Difference{Lost: 1}},
		{"both headers gone", func(t *testing.T, path, _ string) { spoil(t, path, 0, 2*os.Getpagesize()) }, journal.Difference{Unread: true}},
		{"empty", func(t *testing.T, path, _ string) { writeFile(t, path, nil) }, journal.Difference{Unread: true}},
		{"a letter", func(t *testing.T, path, _ string) { writeFile(t, path, []byte("dear crew")) }, journal.Difference{Unread: true}},
		{"cut short", func(t *testing.T, path, _ string) {
			if err := os.Truncate(path, 9000); err != nil {
				t.Fatal(err)
			}
		}, journal.Difference{Unread: true}},
		{"gone", func(t *testing.T, path, _ string) {
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
		}, journal.Difference{None: true}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path, backup := place(t)
			tt.then(t, path, backup)
			before, _ := os.ReadFile(path)
			no := errors.New("no")
			var told journal.Difference
			refuse := func(d journal.Difference) error { told = d; return no }
			aside := filepath.Join(filepath.Dir(path), "old.db")
			if _, err := journal.Restore(path, backup, aside, nil, refuse); !errors.Is(err, no) {
				t.Fatalf("got %v", err)
			}
			tt.want.Copy = mustVerify(t, backup).Head
			if diff := cmp.Diff(tt.want, told); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
			if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
				t.Error("refused, and changed")
			}
			if _, err := os.Lstat(aside); err == nil {
				t.Error("refused, and something lies aside")
			}
			if _, err := journal.Restore(path, backup, aside, nil, yes); err != nil {
				t.Fatal(err)
			}
			if mustVerify(t, path).Head != tt.want.Copy {
				t.Error("it was not restored")
			}
			if kept, _ := os.ReadFile(aside); !bytes.Equal(before, kept) {
				t.Error("the old file is not as it was")
			}
		})
	}
}

func mustOpen(t testing.TB, path string) *journal.Journal {
	t.Helper()
	j, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func writeFile(t testing.TB, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func copyOver(t testing.TB, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, to, data)
}

func spoil(t testing.TB, path string, from, to int) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	copy(data[from:to], bytes.Repeat([]byte{0x5a}, to-from))
	writeFile(t, path, data)
}

func TestRestoreRefuses(t *testing.T) {
	broken := errors.New("it looks bad")
	tests := []struct {
		name  string
		ready func(t *testing.T, path, backup, aside string)
		check func(string) error
		want  error
	}{
		{"a damaged backup", func(t *testing.T, _, backup, _ string) { flip(t, backup, `"id":"a"`, `"id":"q"`) }, nil, journal.ErrDamaged},
		{"what is no backup", func(t *testing.T, _, backup, _ string) { writeFile(t, backup, []byte("dear crew")) }, nil, journal.ErrNotOurs},
		{"a backup that is not there", func(t *testing.T, _, backup, _ string) {
			if err := os.Remove(backup); err != nil {
				t.Fatal(err)
			}
		}, nil, journal.ErrNotExist},
		{"a backup that the check refuses", nil, func(string) error { return broken }, broken},
		{"where the name for the old file is taken", func(t *testing.T, _, _, aside string) { writeFile(t, aside, []byte("older")) }, nil, journal.ErrExists},
		{"a file of a later version", func(t *testing.T, path, _, _ string) { flip(t, path, "bathside-journal/1", "bathside-journal/9") }, nil, journal.ErrNewer},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path, backup := place(t)
			aside := filepath.Join(filepath.Dir(path), "old.db")
			if tt.ready != nil {
				tt.ready(t, path, backup, aside)
			}
			before, _ := os.ReadFile(path)
			asideBefore, _ := os.ReadFile(aside)
			if _, err := journal.Restore(path, backup, aside, tt.check, yes); !errors.Is(err, tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
			after, _ := os.ReadFile(path)
			asideAfter, _ := os.ReadFile(aside)
			if !bytes.Equal(before, after) || !bytes.Equal(asideBefore, asideAfter) {
				t.Error("refused, and changed")
			}
			if left, err := journal.Drafts(filepath.Dir(path)); err != nil || len(left) > 0 {
				t.Errorf("left behind: %q, %v", left, err)
			}
		})
	}
}

func TestRestoreThroughALink(t *testing.T) {
	path, backup := place(t)
	link := filepath.Join(t.TempDir(), "station.db")
	if err := os.Symlink(path, link); err != nil {
		t.Skip("no links here:", err)
	}
	if _, err := journal.Restore(link, backup, filepath.Join(filepath.Dir(path), "old.db"), nil, yes); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("it is no link any more: %v, %v", info.Mode(), err)
	}
	if mustVerify(t, path).Entries != 2 {
		t.Error("what it leads to was not restored")
	}
}

// Two others write while the file is put back, again and again. What they were
// told is written is in the file, or in one that was kept.
func TestNothingAcknowledgedIsLostByARestore(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no lock file keeps others out there")
	}
	path, backup := place(t)
	var told []string
	running := make([]func(), 2)
	for i := range running {
		cmd, lines, _ := start(t, "append", path, fmt.Sprint("w", i), "80")
		running[i] = func() {
			for lines.Scan() {
				told = append(told, lines.Text())
			}
			if err := cmd.Wait(); err != nil {
				t.Error(err)
			}
		}
	}
	kept := []string{path}
	for i := range 8 {
		aside := filepath.Join(filepath.Dir(path), fmt.Sprint("old", i, ".db"))
		if _, err := journal.Restore(path, backup, aside, nil, yes); err != nil {
			t.Fatal(err)
		}
		kept = append(kept, aside)
	}
	for _, wait := range running {
		wait()
	}
	there := map[string]bool{}
	for _, file := range kept {
		mustVerify(t, file)
		for _, e := range all(t, mustOpen(t, file)) {
			there[e.ID] = true
		}
	}
	for _, id := range told {
		if !there[id] {
			t.Errorf("%s was acknowledged and is lost", id)
		}
	}
	if len(told) != 160 {
		t.Errorf("%d of 160 were acknowledged", len(told))
	}
}
