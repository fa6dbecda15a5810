package station_test

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// backingUp makes a backup after each record, beside the log book. Only the
// first victim does; any other records meanwhile.
func backingUp(path, name string) (func(int) error, error) {
	return backingUpWith(path, name, func(s *station.Station, to string) error {
		_, err := s.BackUp(to, station.CheckPages)
		return unlessThere(err)
	})
}

func backingUpWith(path, name string, backUp func(s *station.Station, to string) error) (func(int) error, error) {
	record, err := recording(path, name)
	if err != nil || name != victimName(0) {
		return record, err
	}
	s, err := station.Open(path, station.Options{Now: atNoon})
	return func(i int) error {
		if err := record(i); err != nil {
			return err
		}
		return backUp(s, backupNumber(path, i))
	}, err
}

func backupNumber(path string, i int) string {
	return filepath.Join(filepath.Dir(path), station.BackupName(path, noon, i+1))
}

// copying gives a backup its name before it is whole, and waits for the kill:
// the harness must see that. The first of each victim is right, as tearing's is.
func copying(path, name string) (func(int) error, error) {
	begun := false
	return backingUpWith(path, name, func(s *station.Station, to string) error {
		if !begun {
			begun = true
			_, err := s.BackUp(to, nil)
			return unlessThere(err)
		}
		data, err := os.ReadFile(s.Path())
		if err != nil {
			return err
		}
		if err := os.WriteFile(to, data[:len(data)/2], 0o600); err != nil {
			return err
		}
		_, err = io.Copy(io.Discard, os.Stdin)
		return err
	})
}

// lookAtBackups finds the log book whole, and each backup as it was once. A
// backup is there for each that was acknowledged; those are taken away
// afterwards.
func lookAtBackups(y *tally, sc *scene) {
	lookAtRecords(y, sc)
	entries := y.book(sc.path)
	listed := sc.listBackups(y)
	name := victimName(0)
	for i := sc.seen[name]; i <= sc.told[name]; i++ {
		path := backupNumber(sc.path, i)
		switch told := i < sc.told[name]; {
		case slices.Contains(listed, path):
			y.backup(path, entries, sc.path, name, i)
			if told {
				_ = os.Remove(path) // listBackups finds one more if it stays
			}
		case told:
			y.find("backup %d was acknowledged and is not there", i)
		}
	}
	if most := sc.told[name] - sc.seen[name] + 1; len(listed) > most {
		y.find("there are %d backups, of %d things at most", len(listed), most)
	}
}

// listBackups gives the backups as the station lists them: all that bear the
// name of one, and nothing else.
func (sc *scene) listBackups(y *tally) (listed []string) {
	s, err := station.Open(sc.path, station.Options{Now: atNoon})
	if err != nil {
		y.find("%v", err)
		return nil
	}
	dir := filepath.Dir(sc.path)
	backups, err := s.Backups(dir)
	if err != nil {
		y.find("%v", err)
	}
	for _, b := range backups {
		listed = append(listed, b.Path)
	}
	there, err := filepath.Glob(filepath.Join(dir, "[^.]*-*.db"))
	if slices.Sort(there); err != nil || !slices.Equal(there, slices.Sorted(slices.Values(listed))) {
		y.find("%q bear the name of a backup, and %q are listed: %v", there, listed, err)
	}
	if err := s.Close(); err != nil {
		y.find("%v", err)
	}
	return listed
}

// backup judges backup i of a victim: whole, the beginning of the log book up
// to the end of a record, and with the record that was written before it.
func (y *tally) backup(path string, entries []bath.Entry, of, name string, i int) {
	own := 0
	for _, e := range y.book(path) {
		if strings.HasPrefix(e.ID, batchOf(name, i)) {
			own++
		}
	}
	if want := len(batch(name, i)); own != want {
		y.find("backup %d has %d of %d lines that were acknowledged before it", i, own, want)
	}
	m, err := station.MatchFile(of, path)
	if err != nil || !m.Whole() {
		y.find("backup %d is not the beginning of the log book: of %d lines %d are the same, %v", i, m.There, m.Same, err)
		return
	}
	if m.There < uint64(len(entries)) && !strings.HasSuffix(entries[m.There].ID, "-0") {
		y.find("backup %d ends within a record", i)
	}
	y.copies++
}
