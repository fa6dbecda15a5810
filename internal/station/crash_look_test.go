package station_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"bathside/internal/station"
)

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
// which are known for drafts, one for each kill at most, all for this account
// only. What lay beside the log book from the start is as it was.
func (sc *scene) lookAround(y *tally) {
	dir := filepath.Dir(sc.path)
	there, err := os.ReadDir(dir)
	if err != nil {
		y.find("%v", err)
	}
	hidden, err := station.Drafts(dir)
	if err != nil {
		y.find("%v", err)
	}
	drafts := 0
	for _, f := range there {
		name := f.Name()
		if info, err := f.Info(); err != nil {
			y.find("%v", err)
		} else if perm := info.Mode().Perm(); runtime.GOOS != "windows" && perm != 0o600 {
			y.find("%s has the permissions %o, want 600", name, perm)
		}
		switch {
		case slices.Contains(hidden, filepath.Join(dir, name)):
			drafts++
			_ = os.Remove(filepath.Join(dir, name))
		case name[0] == '.' || !strings.HasSuffix(name, ".db") && !strings.HasSuffix(name, ".db.lock"):
			y.find("%s was left behind", name)
		}
	}
	if drafts > sc.crash.victims {
		y.find("%d drafts were left behind by %d kills", drafts, sc.crash.victims)
	}
	y.drafts += drafts
	for name, want := range sc.beside {
		if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != want {
			y.find("%s is not as it was: %v", name, err)
		}
	}
}
