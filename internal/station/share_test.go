package station_test

import (
	"bufio"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/station"
)

func TestTwoConsolesSeeEachOthersLines(t *testing.T) {
	path := newFile(t)
	a, b := open(t, path), open(t, path)
	stateOf(t, b)
	changed := b.Watch(t.Context())
	write(t, a, note("from a"))
	<-changed
	if notes := stateOf(t, b).Notes; len(notes) != 1 {
		t.Fatalf("b has %d notes", len(notes))
	}
	if e := write(t, b, note("from b"))[0]; e.Seq != 7 {
		t.Errorf("written as line %d, want 7", e.Seq)
	}
	if notes := stateOf(t, a).Notes; len(notes) != 2 {
		t.Errorf("a has %d notes", len(notes))
	}
}

func TestReadingWhileWriting(t *testing.T) {
	s := open(t, newFile(t))
	var busy sync.WaitGroup
	for i := range 4 {
		busy.Go(func() {
			for k := range 5 {
				if _, err := s.Record(note(fmt.Sprint(i, k))); err != nil {
					t.Error(err)
				}
			}
		})
		busy.Go(func() {
			for range 10 {
				if st, err := s.State(); err != nil || len(st.Members) != 3 {
					t.Errorf("%v, %v", st, err)
				}
			}
		})
	}
	busy.Wait()
	if n := stateOf(t, s).Seq; n != 25 {
		t.Errorf("got %d lines, want 25", n)
	}
}

// Fifty programs write at once: nothing is lost, and none waits longer than the
// lock time without being told that the log book is in use.
func TestFiftyProgramsWriteAtOnce(t *testing.T) {
	const programs, each = 50, 20
	path := newFile(t)
	cmds, outs := make([]*exec.Cmd, programs), make([]*bufio.Scanner, programs)
	for i := range programs {
		cmds[i], outs[i] = startChild(t, path, fmt.Sprint("p", i), each)
	}
	acknowledged, busy, longest := 0, 0, time.Duration(0)
	for i, out := range outs {
		for out.Scan() {
			id, waited, _ := strings.Cut(out.Text(), " ")
			if id == inUse {
				busy++
				continue
			}
			acknowledged++
			took, err := time.ParseDuration(waited)
			if err != nil {
				t.Fatal(err)
			}
			longest = max(longest, took)
		}
		if err := cmds[i].Wait(); err != nil {
			t.Errorf("program %d: %v", i, err)
		}
	}
	t.Logf("%d acknowledged; the longest wait was %s, and %d times a program was told that the log book is in use", acknowledged, longest, busy)
	if acknowledged != programs*each {
		t.Errorf("%d of %d were acknowledged", acknowledged, programs*each)
	}
	// A second more, for a machine that lets the program wait once it holds the log book.
	if longest > journal.DefaultLockWait+time.Second {
		t.Errorf("one waited %s without an error, %s are allowed", longest, journal.DefaultLockWait)
	}
	checkNotes(t, open(t, path), programs, each)
}

// checkNotes finds all the notes of each program in their order, and nothing
// else after the first five lines.
func checkNotes(t *testing.T, s *station.Station, programs, each int) {
	t.Helper()
	all := lines(t, s)[5:]
	next := map[string]int{}
	for _, e := range all {
		program, k, _ := strings.Cut(e.Body.(*bath.Handover).Note, "-")
		if k != strconv.Itoa(next[program]) {
			t.Errorf("%s: note %s where %d belongs", program, k, next[program])
		}
		next[program]++
	}
	if len(all) != programs*each || len(next) != programs {
		t.Errorf("%d of %d notes are in the log book, of %d programs", len(all), programs*each, len(next))
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
}
