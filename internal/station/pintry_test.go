package station_test

import (
	"bytes"
	"os"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/station"
)

func TestFiveWrongTriesLockForGrowingTimes(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, pinned(t), clock)
	four := []string{"wrong, 4 left", "wrong, 3 left", "wrong, 2 left", "wrong, 1 left"}
	for _, lasts := range []time.Duration{time.Minute, 5 * time.Minute, 15 * time.Minute, time.Hour, time.Hour} {
		until := "locked until " + clock.read().Add(lasts).Format("15:04")
		checkTries(t, s, wrongPIN, append(four, until, until)...)
		checkTries(t, s, keyPIN, until) // the right one neither
		clock.wait(lasts - time.Second)
		checkTries(t, s, keyPIN, until)
		clock.wait(time.Second)
	}
	checkTries(t, s, wrongPIN, four...)
	checkTries(t, s, keyPIN, "ok")
	until := "locked until " + clock.read().Add(time.Minute).Format("15:04")
	checkTries(t, s, wrongPIN, append(four, until)...) // from the beginning again
}

func TestTheLockSpeaks(t *testing.T) {
	clock := &wall{now: noon.Add(20 * time.Second)}
	s := open(t, pinned(t), clock)
	var err error
	for range 5 {
		_, err = s.Authorize(officer, wrongPIN)
	}
	checkDenied(t, "fifth", err, "pin-locked", "that is not the PIN of Ana Reyes, for the 5th time: it is locked until 12:02; "+
		"wait, or have another gear officer, or bathside setup --reset-pin, set a new one")
	_, err = s.Authorize(officer, officerPIN)
	checkDenied(t, "sixth", err, "pin-locked", "the PIN of Ana Reyes is locked until 12:02 after wrong tries: wait, or have")
}

func TestALockSurvivesReopening(t *testing.T) {
	path := pinned(t)
	for _, want := range []string{"wrong, 4 left", "wrong, 3 left", "wrong, 2 left", "wrong, 1 left", "locked until 12:01", "locked until 12:01"} {
		checkTries(t, open(t, path), wrongPIN, want)
	}
	checkTries(t, open(t, path, &wall{now: noon.Add(time.Minute)}), keyPIN, "ok")
}

// The clock was a year ahead while somebody locked the PIN.
func TestALockByAClockAheadEnds(t *testing.T) {
	path := pinned(t)
	ahead := open(t, path, &wall{now: noon.AddDate(1, 0, 0)})
	for range 5 {
		try(ahead, wrongPIN)
	}
	clock := &wall{now: noon}
	s := open(t, path, clock)
	checkTries(t, s, keyPIN, "locked until 12:01")
	clock.wait(59 * time.Second)
	checkTries(t, s, keyPIN, "locked until 12:01")
	clock.wait(time.Second)
	checkTries(t, s, keyPIN, "ok")
}

// Twelve tries at once by two programs: four are wrong, the fifth locks, and
// the others meet the lock.
func TestTriesAtOnceAreAllCounted(t *testing.T) {
	path := pinned(t)
	got := make(chan string, 12)
	var busy sync.WaitGroup
	for _, s := range []*station.Station{open(t, path), open(t, path)} {
		for range 6 {
			busy.Go(func() { got <- try(s, wrongPIN) })
		}
	}
	busy.Wait()
	close(got)
	count := map[string]int{}
	for result := range got {
		count[result]++
	}
	want := map[string]int{"wrong, 4 left": 1, "wrong, 3 left": 1, "wrong, 2 left": 1, "wrong, 1 left": 1, "locked until 12:01": 8}
	if diff := cmp.Diff(want, count); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// A right try must be as visible on the disk as a wrong one: otherwise a full
// disk would tell them apart and count none.
func TestARightTryIsWrittenToo(t *testing.T) {
	path := pinned(t)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	checkTries(t, open(t, path), keyPIN, "ok")
	if after, err := os.ReadFile(path); err != nil || bytes.Equal(before, after) {
		t.Errorf("nothing was written, %v", err)
	}
}
