package guide_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/assets"
	"bathside/internal/bath"
	"bathside/internal/guide"
	"bathside/internal/units"
)

// typed is how the faces hold a step against the kinds of entry.
func typed(kind string, preset map[string]string) error {
	return bath.Typed(bath.Kind(kind), preset, units.Scan)
}

func shipped(t *testing.T) []guide.Guide {
	t.Helper()
	all, err := guide.Load(assets.FS, typed)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestShippedInTheOrderOfABathsLife(t *testing.T) {
	var got []string
	for _, g := range shipped(t) {
		got = append(got, g.ID)
	}
	want := []string{"set-up", "weekly-reading", "load-and-run", "filter", "drain-and-refill", "calibrate-meter"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("guides (-want +got):\n%s", diff)
	}
}

// Source: ruling of the trade: the machine's timer is set and seen to stop it,
// ultrasound is off before a hand goes in, what happened is looked at.
func TestLoadAndRunRecordsAWashInItsOrder(t *testing.T) {
	g, err := guide.Find(shipped(t), "load-and-run")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range g.Steps {
		switch {
		case s.UntilWashed:
			got = append(got, "wait")
		case s.Do != "":
			got = append(got, s.Do)
		}
	}
	if diff := cmp.Diff([]string{"intake", "temp", "start", "wait", "wash"}, got[:5]); diff != "" {
		t.Errorf("entries (-want +got):\n%s", diff)
	}
}

func TestFind(t *testing.T) {
	all := shipped(t)
	for _, name := range []string{"load-and-run", "Load and run", " LOAD-AND-RUN "} {
		if g, err := guide.Find(all, name); err != nil || g.ID != "load-and-run" {
			t.Errorf("%q: got %q, %v", name, g.ID, err)
		}
	}
	const say = `there is no guide "refill": there are set-up, weekly-reading, load-and-run, filter, drain-and-refill, calibrate-meter`
	if _, err := guide.Find(all, "refill"); err == nil || err.Error() != say {
		t.Errorf("got %v, want %s", err, say)
	}
}
