package demo_test

import (
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"bathside/assets"
	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/demo"
	"bathside/internal/station"
)

var shipped = sync.OnceValue(func() *catalog.Catalog {
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		panic(err)
	}
	return cat
})

func opened(t *testing.T, path string) *station.Station {
	t.Helper()
	s, err := station.Open(path, station.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// built is the demo as it stands at now, and its lines.
func built(t *testing.T, now time.Time) (*bath.State, []bath.Entry) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.bathside")
	if err := demo.Build(path, now, shipped()); err != nil {
		t.Fatalf("at %s: %v", now, err)
	}
	s := opened(t, path)
	state, err := s.State()
	if err != nil {
		t.Fatal(err)
	}
	lines, err := s.Lines(0, 1000)
	if err != nil {
		t.Fatal(err)
	}
	return state, lines
}

func in(t *testing.T, zone string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// momentsToShow are every hour of an autumn day on which clocks go back, and
// moments that are awkward in some other way.
func momentsToShow(t *testing.T) []time.Time {
	denver := in(t, "America/Denver")
	var all []time.Time
	for h := range 26 { // the day has 25 hours
		all = append(all, time.Date(2026, 11, 1, 0, 20, 0, 0, denver).Add(time.Duration(h)*time.Hour))
	}
	return append(all,
		time.Date(2026, 11, 1, 7, 29, 59, 0, denver), // a second before the change of shift, and at it
		time.Date(2026, 11, 1, 7, 30, 0, 0, denver),
		time.Date(2026, 3, 8, 1, 59, 0, 0, denver), // clocks go forward
		time.Date(2026, 3, 8, 3, 0, 0, 0, denver),
		time.Date(2026, 5, 10, 12, 0, 0, 0, denver), // clocks went forward within the ten weeks
		time.Date(2028, 2, 29, 12, 0, 0, 0, in(t, "Europe/London")),
		time.Date(2027, 1, 1, 0, 0, 0, 0, in(t, "Pacific/Auckland")),
		time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC),
		time.Date(2026, 7, 1, 12, 0, 0, 0, time.FixedZone("", -6*3600)),
	)
}

// TestDemoHasSomethingToDecide is what the demo is for, whenever it is shown.
func TestDemoHasSomethingToDecide(t *testing.T) {
	for _, now := range momentsToShow(t) {
		state, lines := built(t, now)
		x, err := advise.Assess(state, "", now)
		if err != nil {
			t.Fatal(err)
		}
		if x.PH.State != advise.PHWatch {
			t.Errorf("at %s: the bath is %s (%s), want it getting close", now, x.PH.State, x.PH.Why)
		}
		if d := x.PH.Drop; d == nil || *d < 0.35 || *d > 0.45 {
			t.Errorf("at %s: %s, want down 0.35 to 0.45", now, x.DropSay())
		}
		if len(x.PH.Doubtful()) != 1 {
			t.Errorf("at %s: %d doubtful readings, want 1", now, len(x.PH.Doubtful()))
		}
		for id, urgency := range map[string]advise.Urgency{"reading": advise.Today, "filter": advise.Today, "mark": advise.Today, "limit": advise.Soon} {
			i := slices.IndexFunc(x.Next, func(a advise.Action) bool { return a.ID == id })
			if i < 0 || x.Next[i].Urgency != urgency {
				t.Errorf("at %s: %q is not %s in %v", now, id, urgency, x.Next)
			}
		}
		if x.Next[0].Urgency == advise.Now {
			t.Errorf("at %s: something is urgent: %v", now, x.Next[0])
		}
		for _, e := range lines {
			if e.At.After(now) || e.Logged.After(now) {
				t.Errorf("at %s: line %d is in the future: %s, logged %s", now, e.Seq, e.At, e.Logged)
			}
		}
	}
}

func TestDemoTakesTheReadersZone(t *testing.T) {
	tests := []struct {
		name string
		loc  *time.Location
		want string
	}{
		{"a named zone", in(t, "Europe/London"), "Europe/London"},
		{"an offset alone", time.FixedZone("", 3600), "America/Denver"},
		{"the machine's own, which has no name", time.Local, "America/Denver"},
	}
	if time.Local.String() != "Local" {
		tests = tests[:2] // TZ names the zone here
	}
	for _, test := range tests {
		state, _ := built(t, time.Date(2026, 6, 3, 12, 0, 0, 0, test.loc))
		if got := state.Site.Zone; got != test.want {
			t.Errorf("%s: got %s, want %s", test.name, got, test.want)
		}
	}
}

// TestDemoIsTheSameToTheSeal lets pictures and goldens rest on the demo.
func TestDemoIsTheSameToTheSeal(t *testing.T) {
	now := time.Date(2026, 6, 3, 12, 0, 0, 0, time.UTC)
	var seals []string
	for _, name := range []string{"one", "other"} {
		path := filepath.Join(t.TempDir(), name)
		if err := demo.Build(path, now, shipped()); err != nil {
			t.Fatal(err)
		}
		s := opened(t, path)
		seal, err := s.Seal()
		if err != nil {
			t.Fatal(err)
		}
		seals = append(seals, seal)
	}
	if seals[0] != seals[1] {
		t.Errorf("two seals: %v", seals)
	}
}

func TestDemoNeverReplacesAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine")
	if err := os.WriteFile(path, []byte("precious"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := demo.Build(path, time.Date(2026, 6, 3, 12, 0, 0, 0, time.UTC), shipped()); err == nil {
		t.Error("it was made over a file")
	}
	if got, _ := os.ReadFile(path); string(got) != "precious" {
		t.Errorf("the file now holds %q", got)
	}
}

func BenchmarkBuild(b *testing.B) {
	cat := shipped()
	now := time.Date(2026, 6, 3, 12, 0, 0, 0, time.UTC)
	for b.Loop() {
		if err := demo.Build(filepath.Join(b.TempDir(), "demo"), now, cat); err != nil {
			b.Fatal(err)
		}
	}
}
