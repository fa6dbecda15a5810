package station_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func TestPractiseLeavesTheLogBookAlone(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	path := newFile(t)
	s := open(t, path)
	seal, err := s.Seal()
	if err != nil {
		t.Fatal(err)
	}
	later := noon.Add(time.Hour)
	c, done, err := s.Practise(func() time.Time { return later })
	if err != nil {
		t.Fatal(err)
	}
	if got, err := c.Seal(); err != nil || got != seal {
		t.Errorf("the copy has seal %s (%v), want %s: it has not the same lines", got, err, seal)
	}
	e, err := c.Record(station.Draft{By: crew, Body: &bath.Handover{Note: "only practice"}})
	if err != nil {
		t.Fatal(err)
	}
	if !e[0].At.Equal(later) {
		t.Errorf("happened %s, want %s: by the clock of the practice", e[0].At, later)
	}
	if got, _ := s.Seal(); got != seal || c.Path() == path {
		t.Error("what was practised is in the log book")
	}
	if err := done(); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Dir(c.Path())); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the copy is still there: %v", err)
	}
}

// What is thrown away must not hold what opens the real thing.
func TestPractiseTakesNoPINsAlong(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	s := open(t, pinned(t))
	if has, err := s.HasPIN(officer); err != nil || !has {
		t.Fatalf("the station itself has no PIN (%v): this test sees nothing", err)
	}
	c, done, err := s.Practise(func() time.Time { return noon })
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := done(); err != nil {
			t.Error(err)
		}
	}()
	if has, err := c.HasPIN(officer); err != nil || has {
		t.Errorf("HasPIN in the copy: %v, %v", has, err)
	}
}
