package journal_test

import (
	"context"
	"testing"
	"time"

	"bathside/internal/journal"
)

func TestWatchSeesAnotherHandlesWrite(t *testing.T) {
	j := newJournal(t)
	other, err := journal.Open(j.Path())
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	changed := j.Watch(ctx, time.Millisecond)
	for _, id := range numbered(5) {
		mustAppend(t, other, id)
		<-changed // blocks until the test's own deadline if it is missed
	}
	cancel()
	for range changed { // ends only if the channel is closed
	}
}

func TestWatchIsQuietWhenNothingChanges(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	ctx, cancel := context.WithCancel(context.Background())
	changed := j.Watch(ctx, time.Millisecond)
	for range 20 {
		if got := len(all(t, j)); got != 1 {
			t.Fatalf("got %d entries, want 1", got)
		}
		mustAppend(t, j, "a") // is there already
	}
	cancel()
	for range changed {
		t.Error("a reader, or an entry that was there, counted as a change")
	}
}
