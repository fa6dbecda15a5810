package station_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/station"
)

// tally counts what came of the kills.
type tally struct {
	kills         int
	told, present int // lines that were acknowledged, and those of them that are there
	lost          int
	whole, absent int // things that were cut off: there as a whole, or not at all
	checkpoints   int // compared with a fresh fold
	copies        int // backups, and log books kept by a restore, that were read
	drafts        int // hidden files left behind
	faults        []string
}

func (y *tally) String() string {
	return fmt.Sprintf("%d kills: %d lines acknowledged, %d present, %d lost; "+
		"of what was cut off %d there whole, %d not at all; %d checkpoints are a fresh fold; %d backups and files kept are whole; %d drafts left behind",
		y.kills, y.told, y.present, y.lost, y.whole, y.absent, y.checkpoints, y.copies, y.drafts)
}

func (y *tally) add(more tally) {
	y.kills += more.kills
	y.told += more.told
	y.present += more.present
	y.lost += more.lost
	y.whole += more.whole
	y.absent += more.absent
	y.checkpoints += more.checkpoints
	y.copies += more.copies
	y.drafts += more.drafts
}

func (y *tally) find(format string, args ...any) {
	y.faults = append(y.faults, fmt.Sprintf(format, args...))
}

func (y *tally) found() bool { return len(y.faults) > 0 }

// thing judges thing i of a victim, of which got parts out of want are there.
func (y *tally) thing(sc *scene, name string, i, got, want int) {
	told := i < sc.told[name]
	if told && i >= sc.seen[name] {
		y.told += want
		y.present += got
	}
	switch {
	case told && got < want:
		y.lost += want - got
		y.find("%s %d was acknowledged, and %d of %d are there", name, i, got, want)
	case got > want:
		y.find("%s %d is there more than once: %d of %d", name, i, got, want)
	case !told && got == want:
		y.whole++
	case !told && got == 0:
		y.absent++
	case !told:
		y.find("%s %d is torn: %d of %d are there", name, i, got, want)
	}
}

// book reads a log book as whoever comes next does, and whatever it says of
// itself.
func (y *tally) book(path string) []bath.Entry {
	entries, err := y.readBook(path)
	if err != nil {
		y.find("%s: %v", filepath.Base(path), err)
	}
	return entries
}

func (y *tally) readBook(path string) (entries []bath.Entry, err error) {
	s, err := station.Open(path, station.Options{Now: atNoon})
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	st, err := s.State()
	if err != nil {
		return nil, err
	}
	if entries, err = s.Lines(0, 1<<30); err != nil {
		return nil, err
	}
	report, err := station.Verify(path)
	if err != nil {
		return nil, fmt.Errorf("%w: %q", err, report.Findings)
	}
	if report.Entries != len(entries) {
		return nil, fmt.Errorf("it has %d lines and %d were verified", len(entries), report.Entries)
	}
	return entries, errors.Join(station.CheckPages(path), isFold("the state", st, entries), y.checkpoint(path, entries))
}

// checkpoint compares the one on file, if there is one, with a fresh fold of
// the lines it was made of.
func (y *tally) checkpoint(path string, entries []bath.Entry) error {
	j, err := journal.Open(path)
	if err != nil {
		return err
	}
	return j.View(func(tx *journal.Tx) error {
		cp, ok := tx.Checkpoint()
		if !ok {
			return nil
		}
		st, err := bath.Unpack(cp.Data)
		if err != nil {
			return err
		}
		y.checkpoints++
		return isFold("the checkpoint", st, entries[:cp.Seq])
	})
}

func isFold(what string, st *bath.State, entries []bath.Entry) error {
	fold, err := bath.Fold(entries)
	if err != nil {
		return err
	}
	want, errWant := json.Marshal(fold)
	got, errGot := json.Marshal(st)
	if errWant == nil && errGot == nil && !bytes.Equal(want, got) {
		return fmt.Errorf("%s is not a fresh fold of %d lines", what, len(entries))
	}
	return errors.Join(errWant, errGot)
}
