package load_test

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bathside/internal/load"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
)

var rewrite = flag.Bool("rewrite", false, "rewrite the golden files")

// allRefusals is every sentence that keeps something out: of each type in a
// bath too hot for it, of its checks, of what never goes in, and of any item.
func allRefusals(t *testing.T) []string {
	t.Helper()
	f, c := units.Fahrenheit, shipped(t)
	var all []string
	refused := func(name string, in load.Conditions) {
		for _, r := range pick(t, name, load.Normal, in).Refusals {
			all = append(all, r.String())
		}
	}
	for _, bath := range []units.Temperature{unknown, f(80), f(135)} {
		refused("tool", load.Conditions{Bath: bath})
	}
	for _, item := range c.Items {
		refused(item.ID, load.Conditions{Bath: f(129)})
		for _, check := range item.Checks {
			if check.Out != "" {
				all = append(all, check.Refusal())
			}
		}
	}
	for _, out := range c.Excluded {
		all = append(all, load.KeepOut(out, load.Normal).Refusals[0].String())
	}
	return all
}

// Whoever changes a sentence reads the whole list aloud.
func TestEveryRefusalReadAloud(t *testing.T) {
	path := filepath.Join("testdata", "refusals.golden")
	got := strings.Join(allRefusals(t), "\n") + "\n"
	if *rewrite {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s differs (-want +got); look at it, then run with -rewrite:\n%s", path, diff)
	}
}

// What is wrong, what to do now, whom to wake: the ruling on every refusal.
func TestEveryRefusalHasItsThreeParts(t *testing.T) {
	form := regexp.MustCompile(`^Not in the bath: \S.*[^.;,]\. Do this: [a-z].*[^.;,]\. Wake the gear officer( [a-z].*[^.])?\.$`)
	for _, s := range allRefusals(t) {
		if !form.MatchString(s) || strings.Contains(s, "  ") || strings.Contains(s, "..") || len(s) > 400 {
			t.Errorf("does not read well: %s", s)
		}
	}
}

func TestWhatNeverGoesInHasNoMinutes(t *testing.T) {
	c := shipped(t)
	if len(c.Excluded) == 0 {
		t.Fatal("nothing stays out")
	}
	for _, out := range c.Excluded {
		got := load.KeepOut(out, load.Heavy)
		if got.Allowed || got.Minutes != 0 || got.Longest != 0 || refusal(t, got) != load.Never {
			t.Errorf("%s: got %+v, want no minutes and that it never goes in", out.ID, got)
		}
	}
}
