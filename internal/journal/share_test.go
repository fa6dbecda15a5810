package journal_test

import (
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"bathside/internal/journal"
)

func TestManyProcessesLoseNothing(t *testing.T) {
	const processes, goroutines, each = 12, 8, 5
	j := newJournal(t)
	j.LockWait = time.Minute
	var writers sync.WaitGroup
	for p := range processes {
		writers.Go(func() {
			if err := command("append", j.Path(), fmt.Sprintf("process-%d", p), fmt.Sprint(each)).Run(); err != nil {
				t.Errorf("process %d: %v", p, err)
			}
		})
	}
	for g := range goroutines {
		writers.Go(func() {
			for i := range each {
				if err := appendTo(j, fmt.Sprintf("goroutine-%d-%d", g, i)); err != nil {
					t.Errorf("goroutine %d: %v", g, err)
				}
			}
		})
	}
	writers.Wait()
	found := make(map[string]bool)
	for _, e := range all(t, j) {
		found[e.ID] = true
	}
	if want := (processes + goroutines) * each; len(found) != want {
		t.Errorf("got %d entries, want %d", len(found), want)
	}
}

func TestKilledWriterLosesNothingAcknowledged(t *testing.T) {
	j := newJournal(t)
	for round := range 4 {
		name := fmt.Sprintf("round-%d", round)
		cmd, lines, _ := start(t, "append", j.Path(), name, "1000000")
		var acknowledged []string
		for range 1 + 3*round {
			if !lines.Scan() {
				t.Fatal("the writer stopped by itself")
			}
			acknowledged = append(acknowledged, lines.Text())
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for lines.Scan() {
			acknowledged = append(acknowledged, lines.Text())
		}
		_ = cmd.Wait()
		mustVerify(t, j.Path())
		err := j.View(func(tx *journal.Tx) error {
			for _, id := range acknowledged {
				if _, ok, err := tx.Find(id); err != nil || !ok {
					t.Errorf("%s was acknowledged: found %v, %v", id, ok, err)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestInUseWhileAnotherProcessHoldsTheFile(t *testing.T) {
	j := newJournal(t)
	cmd, lines, in := start(t, "hold", j.Path())
	if !lines.Scan() || lines.Text() != "held" {
		t.Fatal("the other process does not hold the file")
	}
	j.LockWait = 20 * time.Millisecond
	if err := appendTo(j, "a"); !errors.Is(err, journal.ErrInUse) {
		t.Errorf("write: got %v, want ErrInUse", err)
	}
	if err := j.View(func(*journal.Tx) error { return nil }); !errors.Is(err, journal.ErrInUse) {
		t.Errorf("read: got %v, want ErrInUse", err)
	}
	if err := errors.Join(in.Close(), cmd.Wait()); err != nil {
		t.Fatal(err)
	}
	j.LockWait = 0
	mustAppend(t, j, "a")
}

// A transaction inside another must not hang the console.
func TestNestedTransactionIsInUse(t *testing.T) {
	j := newJournal(t)
	j.LockWait = 20 * time.Millisecond
	err := j.View(func(*journal.Tx) error { return appendTo(j, "a") })
	if !errors.Is(err, journal.ErrInUse) {
		t.Errorf("got %v, want ErrInUse", err)
	}
}

func TestTwoHandlesOfOneProcessShare(t *testing.T) {
	first := newJournal(t)
	second, err := journal.Open(first.Path())
	if err != nil {
		t.Fatal(err)
	}
	if first.ID() == "" || first.ID() != second.ID() {
		t.Errorf("IDs of one file: got %q and %q", first.ID(), second.ID())
	}
	mustAppend(t, first, "a")
	mustAppend(t, second, "b")
	if got := len(all(t, first)); got != 2 {
		t.Errorf("got %d entries, want 2", got)
	}
	// Readers do not exclude each other.
	err = first.View(func(*journal.Tx) error {
		return second.View(func(*journal.Tx) error { return nil })
	})
	if err != nil {
		t.Error(err)
	}
}
