package station_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

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
	drafts        int // hidden files left behind
	faults        []string
}

func (y *tally) String() string {
	return fmt.Sprintf("%d kills: %d lines acknowledged, %d present, %d lost; "+
		"of what was cut off %d there whole, %d not at all; %d checkpoints are a fresh fold; %d drafts left behind",
		y.kills, y.told, y.present, y.lost, y.whole, y.absent, y.checkpoints, y.drafts)
}

func (y *tally) add(more tally) {
	y.kills += more.kills
	y.told += more.told
	y.present += more.present
	y.lost += more.lost
	y.whole += more.whole
	y.absent += more.absent
	y.checkpoints += more.checkpoints
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

// lookAtRecords finds every record of recording by its ids, and nothing else.
func lookAtRecords(y *tally, sc *scene) {
	entries := y.book(sc.path)
	at := map[string][]int{}
	for i, e := range entries {
		at[e.ID] = append(at[e.ID], i)
	}
	others := len(entries)
	for name, told := range sc.told {
		for i := range told + 1 {
			want, got := len(batch(name, i)), 0
			for k := range want {
				places := at[batchID(name, i, k)]
				got += len(places)
				if head := at[batchID(name, i, 0)]; len(places) == 1 && len(head) == 1 && places[0] != head[0]+k {
					y.find("%s %d does not stand together", name, i)
				}
			}
			y.thing(sc, name, i, got, want)
			others -= got
		}
	}
	if others != sc.base {
		y.find("%d lines are none of the victims', %d were there before them", others, sc.base)
	}
}

// lookAtGuesses counts the lines: a kill takes back no wrong try.
func lookAtGuesses(y *tally, sc *scene) { sc.countLines(y) }

// countLines is for things that write a line each, and gives the newest.
func (sc *scene) countLines(y *tally) (newest uint64) {
	name := victimName(0)
	entries := y.book(sc.path)
	got, told := len(entries)-sc.base-sc.maybe-sc.seen[name], sc.told[name]-sc.seen[name]
	y.told += told
	y.present += min(got, told)
	switch {
	case got < told:
		y.lost += told - got
		y.find("%d more were acknowledged, and %d lines are there", told, got)
	case got > told+1:
		y.find("%d lines are there of %d things", got, told)
	case got == told+1:
		y.whole++
		sc.maybe++
	default:
		y.absent++
	}
	return uint64(len(entries))
}

// lookAtPINs counts the lines too. The PIN on file must be that of the newest.
func lookAtPINs(y *tally, sc *scene) {
	newest := sc.countLines(y)
	if newest == uint64(sc.base) {
		return
	}
	s, err := station.Open(sc.path, station.Options{Now: atNoon})
	if err == nil {
		_, err = s.Authorize(crew, pinAfter(newest))
		err = errors.Join(err, s.Close())
	}
	if err != nil {
		y.find("the PIN is not that of the newest line: %v", err)
	}
}

// lookAtStations finds every new station whole.
func lookAtStations(y *tally, sc *scene) {
	sc.lookAtFiles(y, len(first()), func(path string) int { return len(y.book(path)) })
}

// lookAtCopies finds every copy with the seal number of what was copied: then
// its lines are the same, byte for byte.
func lookAtCopies(y *tally, sc *scene) {
	original, err := station.Verify(sc.path)
	if err != nil {
		y.find("what was copied: %v", err)
	}
	sc.lookAtFiles(y, sc.base, func(path string) int {
		report, err := station.Verify(path)
		if err = errors.Join(err, station.CheckPages(path)); err != nil || report.Head != original.Head {
			y.find("%s has the head %v, want %v: %v", filepath.Base(path), report.Head, original.Head, err)
		}
		return report.Entries
	})
}

// lookAtFiles expects a file of so many lines for each thing that was done.
// Those that were acknowledged are taken away afterwards; one that was cut off
// stays, for the next victim comes to the same name.
func (sc *scene) lookAtFiles(y *tally, want int, linesIn func(path string) int) {
	for name, told := range sc.told {
		for i := sc.seen[name]; i <= told; i++ {
			path, got := copyNumber(sc.path, name, i), 0
			if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
				got = linesIn(path)
			}
			y.thing(sc, name, i, got, want)
			if i < told {
				_ = os.Remove(path) // lookAround finds it if it stays
				_ = os.Remove(path + ".lock")
			}
		}
	}
}

// lookAround finds nothing but log books, their lock files and hidden drafts,
// a draft for each kill at most, all for this account only.
func (sc *scene) lookAround(y *tally) {
	dir := filepath.Dir(sc.path)
	there, err := os.ReadDir(dir)
	if err != nil {
		y.find("%v", err)
	}
	drafts := 0
	for _, f := range there {
		name := f.Name()
		info, err := f.Info()
		if err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			y.find("%s: %v, %v", name, info.Mode(), err)
		}
		switch {
		case strings.HasPrefix(name, "."):
			drafts++
			_ = os.Remove(filepath.Join(dir, name))
		case !strings.HasSuffix(name, ".db") && !strings.HasSuffix(name, ".db.lock"):
			y.find("%s was left behind", name)
		}
	}
	if drafts > sc.crash.victims {
		y.find("%d drafts were left behind by %d kills", drafts, sc.crash.victims)
	}
	y.drafts += drafts
}
