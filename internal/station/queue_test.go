package station_test

import (
	"fmt"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// TestCloseWaitsForWrites: what was submitted is written, in that order, with
// the time of the submission, before Close returns.
func TestCloseWaitsForWrites(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	const n = 40
	var acks []<-chan station.Result
	for i := range n {
		acks = append(acks, s.Submit(note(fmt.Sprint(i))))
		clock.wait(time.Minute)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for i, ack := range acks {
		r := <-ack
		if r.Err != nil {
			t.Fatalf("note %d: %v", i, r.Err)
		}
		if e := r.Entries[0]; e.Seq != uint64(6+i) || !e.At.Equal(noon.Add(time.Duration(i)*time.Minute)) {
			t.Errorf("note %d: got line %d at %s", i, e.Seq, e.At)
		}
	}
	for i, e := range lines(t, open(t, path))[5:] {
		if got := e.Body.(*bath.Handover).Note; got != fmt.Sprint(i) {
			t.Errorf("line %d: got note %s, want %d", e.Seq, got, i)
		}
	}
}

func TestARefusedSubmissionDoesNotHoldUpTheNext(t *testing.T) {
	s := open(t, newFile(t))
	wrong, right := s.Submit(station.Draft{By: crew, Body: &bath.Reading{PH: 10, SampleC: 50}}), s.Submit(note("x"))
	if r := <-wrong; r.Err == nil || r.Entries != nil {
		t.Errorf("got %+v, want a refusal", r)
	}
	if r := <-right; r.Err != nil || r.Entries[0].Seq != 6 {
		t.Errorf("got %+v", r)
	}
}

func TestClosingAgainDoesNothing(t *testing.T) {
	s := open(t, newFile(t))
	for range 2 {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
}
