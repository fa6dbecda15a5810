package station_test

import (
	"bufio"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"testing"

	"bathside/internal/bath"
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

// Twenty programs write at once, and nothing is lost.
func TestTwentyProgramsWriteAtOnce(t *testing.T) {
	const programs, each = 20, 4
	path := newFile(t)
	cmds, outs := make([]*exec.Cmd, programs), make([]*bufio.Scanner, programs)
	for i := range programs {
		cmds[i], outs[i] = startChild(t, path, fmt.Sprint("p", i), each)
	}
	acknowledged := 0
	for i, out := range outs {
		for out.Scan() {
			acknowledged++
		}
		if err := cmds[i].Wait(); err != nil {
			t.Errorf("program %d: %v", i, err)
		}
	}
	if acknowledged != programs*each {
		t.Errorf("%d of %d were acknowledged", acknowledged, programs*each)
	}
	s := open(t, path)
	next := map[string]int{}
	for _, e := range lines(t, s)[5:] {
		program, k, _ := strings.Cut(e.Body.(*bath.Handover).Note, "-")
		if k != strconv.Itoa(next[program]) {
			t.Errorf("%s: note %s where %d belongs", program, k, next[program])
		}
		next[program]++
	}
	if n := len(lines(t, s)) - 5; n != programs*each || len(next) != programs {
		t.Errorf("%d of %d notes are in the log book, of %d programs", n, programs*each, len(next))
	}
	same(t, "state", fresh(t, s), stateOf(t, s))
}

// A program is killed while it writes. What it was told is written is there,
// and the file can be used at once.
func TestNothingAcknowledgedIsLostByAKill(t *testing.T) {
	path := newFile(t)
	for round := range 5 {
		cmd, out := startChild(t, path, fmt.Sprint("k", round), 0)
		var told []string
		for len(told) < 3+round && out.Scan() {
			told = append(told, out.Text())
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for out.Scan() { // what was told before the kill came
			told = append(told, out.Text())
		}
		if err := cmd.Wait(); err == nil {
			t.Fatal("it ended by itself")
		}
		s := open(t, path)
		there := map[string]bool{}
		for _, e := range lines(t, s) {
			there[e.ID] = true
		}
		for _, id := range told {
			if !there[id] {
				t.Errorf("%s was acknowledged and is lost", id)
			}
		}
		write(t, s, note("after the kill"))
		same(t, "state", fresh(t, s), stateOf(t, s))
		if _, err := station.Verify(path); err != nil {
			t.Error(err)
		}
	}
}
