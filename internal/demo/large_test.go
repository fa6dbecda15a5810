package demo_test

import (
	"path/filepath"
	"slices"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/demo"
	"bathside/internal/station"
)

// TestLargeKeepsTheRules folds more than one fill line by line, as a station
// would have.
func TestLargeKeepsTheRules(t *testing.T) {
	entries, err := demo.LargeEntries(1600, noon, shipped())
	if err != nil {
		t.Fatal(err)
	}
	state := bath.NewState()
	for _, e := range entries {
		if err := bath.Check(state, e, e.Logged); err != nil {
			t.Fatalf("line %d: %v", e.Seq, err)
		}
		if out := bath.Outside(state, e); len(out) > 0 {
			t.Fatalf("line %d is outside the rule: %v", e.Seq, out)
		}
		if strike, ok := e.Body.(*bath.Strike); ok {
			if err := bath.CheckStrike(state, e, entries[strike.Target-1], entries[strike.Target:e.Seq-1]); err != nil {
				t.Fatalf("line %d: %v", e.Seq, err)
			}
		}
		if state, err = state.Apply(e); err != nil {
			t.Fatal(err)
		}
	}
	if len(state.Struck) == 0 || len(state.Baths[0].Lives()) != 2 {
		t.Errorf("%d crossed out and %d fills, want some and 2", len(state.Struck), len(state.Baths[0].Lives()))
	}
}

func TestLargeHasAsManyLinesAsAskedFor(t *testing.T) {
	for _, n := range []int{100, 101, 1499} {
		path := filepath.Join(t.TempDir(), "large")
		if err := demo.BuildLarge(path, n, noon, shipped()); err != nil {
			t.Fatal(err)
		}
		s := opened(t, path)
		lines, err := s.Lines(0, n+1)
		if err != nil {
			t.Fatal(err)
		}
		if last := lines[len(lines)-1]; len(lines) != n || last.Logged.After(noon) || noon.Sub(last.At) > 48*time.Hour {
			t.Errorf("asked for %d lines: got %d, the last written %s", n, len(lines), last.Logged)
		}
		if r, err := station.Verify(path); err != nil {
			t.Errorf("%d lines: %v: %v", n, err, r)
		}
	}
}

func TestLargeRefusesTooFew(t *testing.T) {
	if _, err := demo.LargeEntries(99, noon, nil); err == nil {
		t.Error("99 lines were made")
	}
}

// TestLargeIsTenYears: 55,000 lines are ten years, in fills of 60 to 90 days
// (common practice, no source: a bath stays in service for one to several
// months).
func TestLargeIsTenYears(t *testing.T) {
	entries, err := demo.LargeEntries(55_000, noon, nil)
	if err != nil {
		t.Fatal(err)
	}
	if years := noon.Sub(entries[0].At).Hours() / 24 / 365.25; years < 9.9 || years > 10.2 {
		t.Errorf("they are %.1f years", years)
	}
	fills := bath.Of[*bath.Fill](entries)
	for i, f := range fills[1:] {
		if days := f.At.Sub(fills[i].At).Hours() / 24; days < 59.9 || days > 90.1 {
			t.Errorf("fill %d lasts %.1f days", i+1, days)
		}
	}
	if !slices.IsSortedFunc(entries, func(a, b bath.Entry) int { return a.At.Compare(b.At) }) {
		t.Error("the lines are not in order")
	}
}

func BenchmarkBuildLarge(b *testing.B) {
	cat := shipped()
	for b.Loop() {
		if err := demo.BuildLarge(filepath.Join(b.TempDir(), "large"), 55_000, noon, cat); err != nil {
			b.Fatal(err)
		}
	}
}
