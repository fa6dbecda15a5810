package station_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// twoBackups is a log book with two backups beside it, and nothing that the
// second has not. What is recorded on top of that one takes it past its next
// checkpoint.
func twoBackups(t testing.TB, path string) {
	t.Helper()
	inService(t, path)
	s := open(t, path)
	dir := filepath.Dir(path)
	backUp(t, s, dir, noon, 1)
	for range 9 {
		write(t, s, note("after the first"))
	}
	backUp(t, s, dir, noon, 2)
}

// restoring writes a record and puts a backup back, the one and the other by
// turns. One that the kill let finish is done: the log book is that backup.
func restoring(path, name string) (func(int) error, error) {
	return puttingBackWith(path, name, func(from string, i int) error {
		for nth := 0; ; nth++ {
			_, err := station.Restore(path, from, asideNumber(path, i, nth), station.CheckPages, anyDifference)
			if !errors.Is(err, station.ErrExists) {
				return err
			}
		}
	})
}

func puttingBackWith(path, name string, put func(from string, i int) error) (func(int) error, error) {
	return func(i int) error {
		from := backupNumber(path, i%2)
		switch done, err := sameHead(path, from); {
		case err != nil:
			return err
		case done:
			return nil
		}
		s, err := station.Open(path, station.Options{Now: atNoon})
		if err != nil {
			return err
		}
		_, err = s.Record(batch(name, i)...)
		if err := errors.Join(err, s.Close()); err != nil {
			return err
		}
		return put(from, i)
	}, nil
}

func anyDifference(station.Difference) error { return nil }

func sameHead(path, other string) (bool, error) {
	a, errA := station.Verify(path)
	b, errB := station.Verify(other)
	return a.Head == b.Head, errors.Join(errA, errB)
}

// asideNumber is what restore i keeps the log book as. A kill may leave that
// name behind before the switch, and then the next victim takes the next.
func asideNumber(path string, i, nth int) string {
	return station.AsideName(path, noon.Add(time.Duration(i)*time.Minute+time.Duration(nth)*time.Second))
}

// forgetting puts a backup back and keeps nothing: the harness must see that.
func forgetting(path, name string) (func(int) error, error) {
	return puttingBackWith(path, name, func(from string, _ int) error {
		draft := path + ".db"
		data, err := os.ReadFile(from)
		if err != nil {
			return err
		}
		return errors.Join(os.WriteFile(draft, data, 0o600), os.Rename(draft, path))
	})
}

// lookAtRestores finds the log book as the restore that was cut off found it,
// which is what the one before it put back, or as it leaves it. Where it was
// switched the record before it is in a file that was kept. Those of the
// acknowledged ones are taken away afterwards.
func lookAtRestores(y *tally, sc *scene) {
	name := victimName(0)
	switched := y.switched(sc, name)
	for i := sc.seen[name]; i <= sc.told[name]; i++ {
		told, want := i < sc.told[name], len(batch(name, i))
		got := y.kept(sc, name, i, told)
		if !told && !switched {
			got = 0 // it is a second name of the log book
		}
		y.thing(sc, name, i, got, want)
	}
}

// switched reports whether the restore that was cut off came to its end.
func (y *tally) switched(sc *scene, name string) bool {
	i := sc.told[name]
	entries := y.book(sc.path)
	if more, ok := y.beyond(sc.path, entries, backupNumber(sc.path, i%2)); ok && len(more) == 0 {
		return true
	}
	more, ok := y.beyond(sc.path, entries, backupNumber(sc.path, (i+1)%2))
	if !ok || len(more) > 0 && !slices.Equal(more, batchIDs(name, i)) {
		y.find("the log book is neither what restore %d found nor what it puts back", i)
	}
	return false
}

// kept reads what restore i kept, and counts the lines of the record before it
// that are there.
func (y *tally) kept(sc *scene, name string, i int, told bool) (lines int) {
	for nth := 0; ; nth++ {
		path := asideNumber(sc.path, i, nth)
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			return lines
		}
		more, ok := y.beyond(path, y.book(path), backupNumber(sc.path, (i+1)%2))
		if !ok || !slices.Equal(more, batchIDs(name, i)) {
			y.find("%s is not the log book that restore %d found", filepath.Base(path), i)
		}
		lines = len(more)
		y.copies++
		if told {
			_ = os.Remove(path)
		}
	}
}

// beyond gives the ids of what a log book has after the lines of a backup;
// false where those are not its beginning.
func (y *tally) beyond(path string, entries []bath.Entry, backup string) (ids []string, ok bool) {
	m, err := station.MatchFile(path, backup)
	if err != nil {
		y.find("%s: %v", filepath.Base(path), err)
	}
	if err != nil || !m.Whole() || m.There > uint64(len(entries)) {
		return nil, false
	}
	for _, e := range entries[m.There:] {
		ids = append(ids, e.ID)
	}
	return ids, true
}

func batchIDs(name string, i int) (ids []string) {
	for _, d := range batch(name, i) {
		ids = append(ids, d.ID)
	}
	return ids
}
