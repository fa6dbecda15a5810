package station_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func TestRecordWritesAllOrNothing(t *testing.T) {
	s := open(t, newFile(t))
	before := stateOf(t, s)
	_, err := s.Record(append(service(), station.Draft{By: crew, Body: &bath.Reading{PH: 15, SampleC: 50}})...)
	checkRefused(t, "pH 15", err, "input")
	if diff := cmp.Diff(before, stateOf(t, s)); diff != "" {
		t.Errorf("refused, and changed (-before +after)\n%s", diff)
	}
	if n := len(lines(t, s)); n != 5 {
		t.Errorf("refused, and %d lines are there", n)
	}
	entries := write(t, s, service()...)
	if len(entries) != 4 || entries[0].Seq != 6 || entries[3].Seq != 9 {
		t.Errorf("got %d entries", len(entries))
	}
	if diff := cmp.Diff(entries, lines(t, s)[5:]); diff != "" {
		t.Errorf("-said +stored\n%s", diff)
	}
}

func checkRefused(t testing.TB, what string, err error, id string) {
	t.Helper()
	if r, ok := errors.AsType[*bath.Refusal](err); !ok || r.ID != id {
		t.Errorf("%s: got %v, want a refusal %q", what, err, id)
	}
}

// A later line may rest on an earlier one of the same record, or clash with it.
func TestRecordChecksEachLineOnTopOfTheOnesBefore(t *testing.T) {
	s := open(t, newFile(t))
	_, err := s.Record(append(service(), service()[0])...)
	checkRefused(t, "a second fill", err, "fill-open")
}

func TestRecordingTwiceIsRecordingOnce(t *testing.T) {
	path := newFile(t)
	s := open(t, path)
	draft := func() station.Draft { d := note("once"); d.ID = "A1"; return d }
	once := write(t, s, draft())
	for name, again := range map[string]*station.Station{"by the same": s, "by another": open(t, path)} {
		if diff := cmp.Diff(once, write(t, again, draft())); diff != "" {
			t.Errorf("%s: -first +again\n%s", name, diff)
		}
	}
	mixed := write(t, s, draft(), note("new"), draft())
	if mixed[0].Seq != 6 || mixed[1].Seq != 7 || mixed[2].Seq != 6 {
		t.Errorf("got lines %d, %d, %d, want 6, 7, 6", mixed[0].Seq, mixed[1].Seq, mixed[2].Seq)
	}
	if n := len(lines(t, s)); n != 7 {
		t.Errorf("got %d lines, want 7", n)
	}
}

func TestCreateLeavesAnExistingFileAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	if err := os.WriteFile(path, []byte("a letter"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := station.Create(path, station.Options{}, first()...); !errors.Is(err, station.ErrExists) {
		t.Errorf("got %v, want ErrExists", err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != "a letter" {
		t.Errorf("it holds %q now, %v", text, err)
	}
}

func TestCreateLeavesNothingBehindWhenRefused(t *testing.T) {
	tests := []struct {
		name  string
		draft station.Draft
		id    string
	}{
		{"by a role", station.Draft{By: crew, Body: &bath.Tank{VolumeL: 100}}, "role"},
		{"by a name", station.Draft{By: officer, Bath: "bay 2", Body: &bath.Tank{VolumeL: 100}}, "input"},
		{"by an empty log book", station.Draft{By: officer, Body: &bath.Strike{Target: 1, Why: "x"}}, "no-line"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "station.db")
			_, err := station.Create(path, station.Options{}, append(first(), tt.draft)...)
			checkRefused(t, tt.name, err, tt.id)
			if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
				t.Errorf("left behind: %v, %v", left, err)
			}
		})
	}
}

func TestRecordKeepsToTheClockOfTheStation(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, newFile(t), clock)
	clock.wait(90*time.Minute + 1500*time.Millisecond)
	e := write(t, s, note("x"))[0]
	if want := noon.Add(90*time.Minute + time.Second); !e.At.Equal(want) || !e.Logged.Equal(want) || !s.Now().Equal(clock.read()) {
		t.Errorf("got %s, written %s, want %s", e.At, e.Logged, want)
	}
}
