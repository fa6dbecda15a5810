package station_test

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"bathside/internal/demo"
	"bathside/internal/station"
)

var kills = flag.Int("kills", 220, "programs killed by TestCrash")

// roundsAFile is how many rounds of kills a log book goes through before the
// next begins: enough for checkpoints, few enough to be read whole after each.
const roundsAFile = 20

// crash is something that programs are killed at.
type crash struct {
	share   int           // of a hundred kills
	victims int           // programs at it at once
	within  time.Duration // the kill comes at random within this, from when the program is there
	begin   func(t testing.TB, path string)
	do      deed
	look    func(*tally, *scene) // after each kill
}

// crashes are all of them. Another one is a line here, a deed, beside those in
// crash_victim_test.go or in a file of its own, and a look: lookAtFiles will do
// where each thing that is done is a new file.
var crashes = map[string]crash{
	"record":      {35, 1, 20 * time.Millisecond, inService, recording, lookAtRecords},
	"two-writers": {22, 2, 20 * time.Millisecond, inService, recording, lookAtRecords},
	"set-pin":     {8, 1, 20 * time.Millisecond, inService, resettingPINs, lookAtPINs},
	"wrong-pin":   {6, 1, 20 * time.Millisecond, withPIN, guessing, lookAtGuesses},
	"setup":       {12, 1, 20 * time.Millisecond, inService, settingUp, lookAtStations},
	"import":      {3, 1, 150 * time.Millisecond, manyLines, importing, lookAtCopies},
	"backup":      {8, 2, 40 * time.Millisecond, inService, backingUp, lookAtBackups},
	"restore":     {6, 1, 40 * time.Millisecond, twoBackups, restoring, lookAtRestores},
}

// fakes are wrong on purpose.
var fakes = map[string]crash{
	"lying":      {0, 1, 20 * time.Millisecond, inService, lying, lookAtRecords},
	"tearing":    {0, 1, 80 * time.Millisecond, inService, tearing, lookAtRecords},
	"copying":    {0, 1, 80 * time.Millisecond, inService, copying, lookAtBackups},
	"forgetting": {0, 1, 80 * time.Millisecond, twoBackups, forgetting, lookAtRestores},
}

// TestCrash kills programs at random moments while they write. After each kill
// the log book opens and verifies, what was acknowledged is there once, what
// was not is there whole or not at all, and the checkpoint is a fresh fold.
func TestCrash(t *testing.T) {
	sums := map[string]*tally{"all": new(tally)}
	var mu sync.Mutex
	t.Cleanup(func() {
		for _, name := range slices.Sorted(maps.Keys(sums)) {
			t.Logf("%s: %s", name, sums[name])
		}
	})
	for name, c := range crashes {
		sums[name] = new(tally)
		for left := *kills * c.share / (100 * c.victims); left > 0; left -= roundsAFile {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				y := newScene(t, name, c).play(t, min(left, roundsAFile))
				mu.Lock()
				defer mu.Unlock()
				sums[name].add(y)
				sums["all"].add(y)
			})
		}
	}
}

// play kills and looks, round after round, until something is wrong.
func (sc *scene) play(t *testing.T, rounds int) (y tally) {
	t.Helper()
	for left := rounds; left > 0 && !y.found(); left-- {
		sc.kill(t, &y)
		sc.look(&y)
	}
	for _, fault := range y.faults {
		t.Error(fault)
	}
	if want := rounds * sc.crash.victims; y.kills != want && !y.found() {
		t.Errorf("%d were killed, want %d", y.kills, want)
	}
	if y.told != y.present || y.lost > 0 {
		t.Errorf("%d lines were acknowledged, %d are there, %d were lost", y.told, y.present, y.lost)
	}
	return y
}

// The harness is no good if it does not see a loss, a torn record, a backup
// that is named too early and a log book that nobody kept.
func TestCrashIsSeen(t *testing.T) {
	for name, want := range map[string]string{
		"lying": "was acknowledged", "tearing": "is torn", "copying": "bear the name of a backup", "forgetting": "was acknowledged",
	} {
		t.Run(name, func(t *testing.T) {
			var y tally
			for sc := newScene(t, name, fakes[name]); y.kills < 200 && !y.found(); {
				sc.kill(t, &y)
				sc.look(&y)
			}
			if !strings.Contains(strings.Join(y.faults, "\n"), want) {
				t.Errorf("got %q and nothing that %s", y.faults, want)
			}
		})
	}
}

// inService is a log book with a bath in it, a few lines before its next
// checkpoint.
func inService(t testing.TB, path string) {
	t.Helper()
	s, err := station.Create(path, station.Options{Now: atNoon}, append(first(), service()...)...)
	if err != nil {
		t.Fatal(err)
	}
	drafts := make([]station.Draft, 180)
	for i := range drafts {
		drafts[i] = note("quiet")
	}
	write(t, s, drafts...)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// withPIN is a log book whose crew member has a PIN.
func withPIN(t testing.TB, path string) {
	t.Helper()
	inService(t, path)
	if err := open(t, path).ResetPIN(crew, "58203617"); err != nil {
		t.Fatal(err)
	}
}

// manyLines is a log book that an import commits in more than one part.
func manyLines(t testing.TB, path string) {
	t.Helper()
	if err := demo.BuildLarge(path, 5_300, noon, shipped()); err != nil {
		t.Fatal(err)
	}
}

func newScene(t testing.TB, name string, c crash) *scene {
	t.Helper()
	sc := &scene{crash: c, name: name, path: filepath.Join(t.TempDir(), "station.db"), told: map[string]int{}, seen: map[string]int{}, beside: map[string]string{}}
	for k := range c.victims {
		sc.told[victimName(k)] = 0
	}
	c.begin(t, sc.path)
	sc.base = len(lines(t, open(t, sc.path)))
	for _, file := range names(t, filepath.Dir(sc.path)) {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(sc.path), file))
		if err != nil {
			t.Fatal(err)
		}
		if file != filepath.Base(sc.path) {
			sc.beside[file] = string(data)
		}
	}
	return sc
}
