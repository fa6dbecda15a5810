package station_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func TestBackupName(t *testing.T) {
	at := time.Date(2026, time.November, 27, 7, 5, 40, 0, time.UTC)
	for path, want := range map[string]string{"/data/station.db": "station-2026-11-27T0705.db", "log": "log-2026-11-27T0705", "bay 2.x.db": "bay 2.x-2026-11-27T0705.db"} {
		if got := station.BackupName(path, at, 1); got != want {
			t.Errorf("%s: got %s, want %s", path, got, want)
		}
	}
	if got, want := station.BackupName("station.db", at, 3), "station-2026-11-27T0705-3.db"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// backups is a station with one backup a day, each of one line more.
func backups(t testing.TB, n int) (s *station.Station, dir string, last station.Backup) {
	t.Helper()
	s = open(t, newFile(t))
	dir = t.TempDir()
	for day := range n {
		write(t, s, note(fmt.Sprint("day ", day)))
		last = backUp(t, s, dir, noon.AddDate(0, 0, day), 1)
	}
	return s, dir, last
}

func backUp(t testing.TB, s *station.Station, dir string, at time.Time, nth int) station.Backup {
	t.Helper()
	b, err := s.BackUp(filepath.Join(dir, station.BackupName(s.Path(), at, nth)), nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func names(t testing.TB, dir string) (out []string) {
	t.Helper()
	found, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		out = append(out, f.Name())
	}
	return out
}

func TestABackupIsTheWholeStation(t *testing.T) {
	s := open(t, pinned(t))
	months(t, s, &wall{now: noon})
	b := backUp(t, s, t.TempDir(), noon, 1)
	copied := open(t, b.Path)
	if diff := cmp.Diff(lines(t, s), lines(t, copied)); diff != "" {
		t.Errorf("-station +backup:\n%s", diff)
	}
	same(t, "state", fresh(t, s), stateOf(t, copied))
	checkTries(t, copied, keyPIN, "ok") // members keep their PINs
	if seal, err := s.Seal(); err != nil || b.Seal != seal || b.Lines != stateOf(t, s).Seq {
		t.Errorf("got %d lines and %s, want %s, %v", b.Lines, b.Seal, seal, err)
	}
}

// Only backups of this log book count and go, the oldest first.
func TestThin(t *testing.T) {
	others := func(t *testing.T, dir string) {
		other := open(t, newFile(t))
		backUp(t, other, dir, noon.AddDate(-1, 0, 0), 1) // another station's, of the same name
		for _, name := range []string{"station.db", "station-2020-01-01T0000.txt", "station-2020-01-01T0000-old.db", "station-2020-01-01T0000-1.db", "station-2020-13-01T0000.db", "bay2-2020-01-01T0000.db", "letter"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(filepath.Join(dir, "station-2020-01-01T0000.db"), []byte("no log book"), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Mkdir(filepath.Join(dir, "station-2020-01-02T0000.db"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	day := func(d int) string { return station.BackupName("station.db", noon.AddDate(0, 0, d), 1) }
	for _, tt := range []struct {
		keep int
		want []string
	}{
		{9, nil}, {5, nil}, {4, []string{day(0)}}, {2, []string{day(0), day(1), day(2)}},
		{1, []string{day(0), day(1), day(2), day(3)}}, {0, []string{day(0), day(1), day(2), day(3)}}, {-1, []string{day(0), day(1), day(2), day(3)}},
	} {
		t.Run(fmt.Sprint("keep ", tt.keep), func(t *testing.T) {
			s, dir, last := backups(t, 5)
			others(t, dir)
			before := names(t, dir)
			removed, err := s.Thin(dir, tt.keep, last)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, path := range removed {
				got = append(got, filepath.Base(path))
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
			if after := names(t, dir); len(after) != len(before)-len(got) {
				t.Errorf("of %q there are %q", before, after)
			}
		})
	}
}

// The clock was set back to 1970: the backup made then has the oldest name, and
// must not be the one to go.
func TestThinKeepsTheOneMadeJustNow(t *testing.T) {
	s, dir, _ := backups(t, 3)
	made := backUp(t, s, dir, time.Unix(0, 0).UTC(), 1)
	removed, err := s.Thin(dir, 2, made)
	if err != nil || len(removed) != 2 {
		t.Errorf("removed %q, %v", removed, err)
	}
	if _, err := os.Stat(made.Path); err != nil {
		t.Error(err)
	}
}

// What a restored log book has not any more is in an old backup only.
func TestThinKeepsLinesThatAreNowhereElse(t *testing.T) {
	s, dir, last := backups(t, 4)
	all, err := s.Backups(dir)
	if err != nil || len(all) != 4 {
		t.Fatalf("got %d, %v", len(all), err)
	}
	yes := func(station.Difference) error { return nil }
	if _, err := station.Restore(s.Path(), all[1].Path, s.Path()+".old", nil, yes); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Record(note("not seen yet that it was replaced")); !errors.Is(err, station.ErrReplaced) {
		t.Fatalf("got %v, want to be told once that another file stands there", err)
	}
	write(t, s, note("after the restore"))
	made := backUp(t, s, dir, noon.AddDate(0, 0, 9), 1)
	if _, err := s.Thin(dir, 1, made); err != nil {
		t.Fatal(err)
	}
	want := []string{filepath.Base(all[2].Path), filepath.Base(last.Path), filepath.Base(made.Path)}
	if diff := cmp.Diff(want, names(t, dir)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestBackupsOfOneMinuteAreInOrder(t *testing.T) {
	s := open(t, newFile(t))
	dir := t.TempDir()
	for nth := 11; nth > 0; nth-- {
		backUp(t, s, dir, noon, nth)
	}
	backUp(t, s, dir, noon.Add(time.Minute), 1)
	all, err := s.Backups(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, b := range all {
		got = append(got, filepath.Base(b.Path))
	}
	var want []string
	for nth := range 11 {
		want = append(want, station.BackupName("station.db", noon, nth+1))
	}
	want = append(want, station.BackupName("station.db", noon.Add(time.Minute), 1))
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// A console that is open while the file is put back goes on with what the
// backup has.
func TestAConsoleSeesARestore(t *testing.T) {
	s, dir, _ := backups(t, 2)
	write(t, s, note("after the backup"))
	if n := len(stateOf(t, s).Notes); n != 3 {
		t.Fatalf("got %d notes", n)
	}
	all, err := s.Backups(dir)
	if err != nil {
		t.Fatal(err)
	}
	var lost uint64
	count := func(d station.Difference) error { lost = d.Lost; return nil }
	aside := station.AsideName(s.Path(), noon)
	if _, err := station.Restore(s.Path(), all[0].Path, aside, nil, count); err != nil {
		t.Fatal(err)
	}
	if n := len(stateOf(t, s).Notes); n != 1 || lost != 2 {
		t.Errorf("got %d notes, %d lines lost, want 1 and 2", n, lost)
	}
	write(t, s, station.Draft{By: crew, Body: &bath.Handover{Note: "goes on"}})
	same(t, "state", fresh(t, s), stateOf(t, s))
	if n := len(stateOf(t, open(t, aside)).Notes); n != 3 {
		t.Errorf("the old file has %d notes", n)
	}
}
