package station_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/station"
	"bathside/internal/units"
)

// fresh folds the log book from its first line.
func fresh(t testing.TB, s *station.Station) *bath.State {
	t.Helper()
	st, err := bath.Fold(lines(t, s))
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// same compares states as checkpoints hold them: a time out of one knows its
// offset and no longer the name of its zone.
func same(t testing.TB, what string, want, got *bath.State) {
	t.Helper()
	if diff := cmp.Diff(text(t, want), text(t, got)); diff != "" {
		t.Errorf("%s: -fresh fold +state\n%s", what, diff)
	}
}

func text(t testing.TB, s *bath.State) string {
	t.Helper()
	data, err := json.MarshalIndent(s, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// months records several fills, 480 lines, with lines crossed out and tags hung.
func months(t testing.TB, s *station.Station, clock *wall) {
	t.Helper()
	for fill := range 4 {
		if fill > 0 {
			write(t, s, station.Draft{By: officer, Body: &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler}})
		}
		write(t, s, service()...)
		for day := range 23 {
			clock.wait(24 * time.Hour)
			write(t, s,
				station.Draft{By: crew, Body: &bath.Reading{PH: 10.1 - units.PH(day)/100, SampleC: 50, Meter: "M1"}},
				station.Draft{By: crew, Body: &bath.Filter{Time: 1800}},
				note(fmt.Sprint("day ", day)),
				station.Draft{By: crew, Body: &bath.Water{VolumeL: 5, Cause: bath.CauseCarryOut}},
			)
			if day%6 == 0 {
				seq := stateOf(t, s).Seq
				write(t, s, station.Draft{By: crew, Body: &bath.Strike{Target: seq - uint64(day%4), Why: "x"}})
				write(t, s, station.Draft{By: crew, Body: &bath.Hold{Cause: bath.HoldFoil, Why: "x"}}, station.Draft{By: officer, Body: &bath.Release{Why: "x"}})
			}
		}
	}
}

func TestACheckpointIsAFreshFold(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	months(t, s, clock)
	same(t, "the one that wrote it", fresh(t, s), stateOf(t, s))
	seq := storedAt(t, path)
	if head := stateOf(t, s).Seq; seq < head-200 || seq == 0 {
		t.Fatalf("the checkpoint is that of line %d of %d", seq, head)
	}
	cold := open(t, path, clock)
	same(t, "from the checkpoint", fresh(t, s), stateOf(t, cold))
	write(t, cold, note("and on"))
	same(t, "and on from there", fresh(t, s), stateOf(t, cold))
	same(t, "seen by the first", fresh(t, s), stateOf(t, s))
}

// storedAt is the line that the checkpoint on file was folded up to.
func storedAt(t testing.TB, path string) (seq uint64) {
	t.Helper()
	onFile(t, path, func(tx *journal.Tx) error {
		cp, _ := tx.Checkpoint()
		seq = cp.Seq
		return nil
	})
	return seq
}

func onFile(t testing.TB, path string, do func(*journal.Tx) error) {
	t.Helper()
	j, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := j.Update(do); err != nil {
		t.Fatal(err)
	}
}

// A checkpoint may be thrown away at any time, and is where it is not one of
// this program's for this line.
func TestACheckpointThatDoesNotFitIsNotBelieved(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	months(t, s, clock)
	want := fresh(t, s)
	altered := func(change func(*bath.State)) []byte {
		st := fresh(t, s)
		change(st)
		return []byte(text(t, st))
	}
	for name, data := range map[string][]byte{
		"of another fold":    altered(func(st *bath.State) { st.Fold++; st.Site.Station = "Wrong" }),
		"of another line":    altered(func(st *bath.State) { st.Seq--; st.Site.Station = "Wrong" }),
		"no state":           []byte(`{"fold":`),
		"of a newer program": []byte(`{"fold":999,"baths":"many"}`),
		"nothing":            nil,
	} {
		t.Run(name, func(t *testing.T) {
			onFile(t, path, func(tx *journal.Tx) error { return tx.SetCheckpoint(data) })
			same(t, "state", want, stateOf(t, open(t, path, clock)))
		})
	}
	t.Run("and is replaced", func(t *testing.T) {
		write(t, open(t, path, clock), note("x"))
		if seq := storedAt(t, path); seq != want.Seq+1 {
			t.Errorf("the checkpoint is that of line %d of %d", seq, want.Seq+1)
		}
		same(t, "state", fresh(t, s), stateOf(t, open(t, path, clock)))
	})
}

// A backup was put in the place of the log book, or another station's: it may
// be shorter, as long, or longer.
func TestALogBookReplacedOnDiskIsNoticed(t *testing.T) {
	for name, extra := range map[string]int{"shorter": 2, "as long": 3, "longer": 6} {
		t.Run(name, func(t *testing.T) {
			path, other := newFile(t), newFile(t)
			s, o := open(t, path), open(t, other)
			for i := range 3 {
				write(t, s, note(fmt.Sprint("first ", i)))
			}
			for i := range extra {
				write(t, o, note(fmt.Sprint("second ", i)))
			}
			if n := len(stateOf(t, s).Notes); n != 3 {
				t.Fatalf("got %d notes", n)
			}
			want := fresh(t, o)
			copyFile(t, other, path)
			same(t, "looked at", want, stateOf(t, s))
			if e := write(t, s, note("on top"))[0]; e.Seq != want.Seq+1 {
				t.Errorf("written as line %d, want %d", e.Seq, want.Seq+1)
			}
			same(t, "written to", fresh(t, s), stateOf(t, s))
		})
	}
}

// A line that was meant for one log book must not go into another that was put
// in its place since anybody looked. The next try goes by what lies there now.
func TestALineMeantForAnotherLogBookIsNotWritten(t *testing.T) {
	path, other := newFile(t), newFile(t)
	s, o := open(t, path), open(t, other)
	write(t, s, note("first"))
	write(t, o, note("second"), note("third"))
	stateOf(t, s)
	want := fresh(t, o)
	copyFile(t, other, path)
	if _, err := s.Record(note("on top")); !errors.Is(err, station.ErrReplaced) {
		t.Errorf("got %v, want ErrReplaced", err)
	}
	same(t, "nothing was written", want, stateOf(t, s))
	if e := write(t, s, note("on top"))[0]; e.Seq != want.Seq+1 {
		t.Errorf("written as line %d, want %d", e.Seq, want.Seq+1)
	}
}

// What was taken away while it was in use is not a station that was never set
// up.
func TestALogBookTakenAwayIsGone(t *testing.T) {
	path := newFile(t)
	s := open(t, path)
	write(t, s, note("first"))
	aside := filepath.Join(t.TempDir(), "aside.db")
	if err := os.Rename(path, aside); err != nil {
		t.Fatal(err)
	}
	_, readErr := s.State()
	_, writeErr := s.Record(note("lost?"))
	for doing, err := range map[string]error{"read": readErr, "write": writeErr} {
		if say := station.Explain(err, path); !errors.Is(err, station.ErrGone) || !strings.Contains(say, "was taken away while it was in use") {
			t.Errorf("%s: got %v, %q", doing, err, say)
		}
	}
	if err := os.Rename(aside, path); err != nil {
		t.Fatal(err)
	}
	write(t, s, note("put back"))
	if n := len(stateOf(t, s).Notes); n != 2 {
		t.Errorf("got %d notes, want 2", n)
	}
}

// copyFile puts a copy of one file in the place of another, at once.
func copyFile(t *testing.T, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	draft := filepath.Join(t.TempDir(), "draft")
	if err := os.WriteFile(draft, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(draft, to); err != nil {
		t.Fatal(err)
	}
}

func TestImportedLinesAreTheSameLogBook(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	months(t, s, clock)
	var out bytes.Buffer
	if err := s.Export(&out); err != nil {
		t.Fatal(err)
	}
	exported := out.String()
	twin := filepath.Join(t.TempDir(), "twin.db")
	n, err := station.Import(twin, &out)
	if err != nil || n != stateOf(t, s).Seq {
		t.Fatalf("got %d lines, %v", n, err)
	}
	copied := open(t, twin, clock)
	var again bytes.Buffer
	if err := copied.Export(&again); err != nil {
		t.Fatal(err)
	}
	if again.String() != exported {
		t.Error("exported again, it is not the same, byte for byte")
	}
	same(t, "state", stateOf(t, s), stateOf(t, copied))
	a, errA := s.Seal()
	b, errB := copied.Seal()
	if a != b || errA != nil || errB != nil || len(a) != 64 {
		t.Errorf("the seals are %q and %q, %v, %v", a, b, errA, errB)
	}
}
