package station_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"bathside/assets"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/station"
	"bathside/internal/units"
)

// The people of these tests.
const (
	officer   = "Ana Reyes"
	keyHolder = "Kim Sato"
	crew      = "Lee Holm"
)

// childEnv makes the test binary act as another program at a log book, which
// does what the variable names: with "notes" it records as many as it is told,
// "PATH NAME COUNT"; with "guess" it guesses at a PIN; with the name of a crash
// it is its victim, "PATH NAME FROM".
const childEnv = "STATION_TEST_CHILD"

func TestMain(m *testing.M) {
	what := os.Getenv(childEnv)
	if what == "" {
		os.Exit(m.Run())
	}
	if err := act(what, os.Args[1], os.Args[2], os.Args[3]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(victimFailed)
	}
}

func act(what, path, name, number string) error {
	switch what {
	case "notes":
		return child(path, name, number)
	case guesser:
		return guess(path, name, number)
	}
	c, ok := crashes[what]
	if !ok {
		c, ok = fakes[what]
	}
	if !ok {
		return fmt.Errorf("unknown child %q", what)
	}
	return victim(c.do, path, name, number)
}

// child prints the id of each note once it is acknowledged, and how long it
// waited for its turn. Where others held the log book for all of the lock time
// it prints inUse, and asks again.
func child(path, name, count string) error {
	most, err := strconv.Atoi(count)
	if err != nil {
		return err
	}
	var turn time.Time // AskPIN is asked once the log book is held
	s, err := station.Open(path, station.Options{Now: func() time.Time { return noon },
		AskPIN: func(*bath.State, bath.Entry) station.Ask { turn = time.Now(); return station.AskNever }})
	if err != nil {
		return err
	}
	for i := 0; i < most; {
		id := fmt.Sprintf("%s-%d", name, i)
		begun := time.Now()
		_, err := s.Record(station.Draft{ID: id, By: crew, Body: &bath.Handover{Note: id}})
		switch {
		case errors.Is(err, station.ErrInUse):
			fmt.Println(inUse)
			continue
		case err != nil:
			return err
		}
		fmt.Println(id, turn.Sub(begun))
		i++
	}
	return s.Close()
}

const inUse = "in-use"

// startChild runs a child and gives the lines it prints.
func startChild(t *testing.T, path, name string, count int) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0], path, name, strconv.Itoa(count))
	cmd.Env = append(os.Environ(), childEnv+"=notes")
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewScanner(out)
}

// noon is a Monday.
var noon = time.Date(2026, time.March, 2, 12, 0, 0, 0, mustZone("America/Denver"))

func mustZone(name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return loc
}

// wall is a clock that stands until it is put on.
type wall struct {
	mu  sync.Mutex
	now time.Time
}

func (w *wall) read() time.Time {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.now
}

func (w *wall) wait(d time.Duration) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.now = w.now.Add(d)
}

var shipped = sync.OnceValue(func() *catalog.Catalog {
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		panic(err)
	}
	return cat
})

// first is what every station of these tests begins with: five lines.
func first() []station.Draft {
	return []station.Draft{
		{By: officer, Body: &bath.Member{Name: officer, Role: bath.Officer, Initials: "AR"}},
		{By: officer, Body: &bath.Member{Name: keyHolder, Role: bath.KeyHolder, Initials: "KS"}},
		{By: officer, Body: &bath.Member{Name: crew, Initials: "LH"}},
		{By: officer, Body: &bath.Setting{Station: "Mill Road", Zone: "America/Denver", Shift: "24/48@07:00", Units: "us"}},
		{By: officer, Bath: "main", Body: &bath.Tank{VolumeL: units.Gallons(60), Product: "soap", Ratio: 30, Strongest: 15}},
	}
}

// service is a bath filled, dosed, degassed, with its first reading: four
// lines more.
func service() []station.Draft {
	return []station.Draft{
		{By: crew, Body: &bath.Fill{VolumeL: units.Gallons(60)}},
		{By: crew, Body: &bath.Dose{VolumeL: units.Gallons(2)}},
		{By: keyHolder, Body: &bath.Degas{Time: units.Minutes(15)}},
		{By: crew, Body: &bath.Reading{PH: 10.10, SampleC: 50, Meter: "M1", Baseline: true}},
	}
}

func note(text string) station.Draft {
	return station.Draft{By: crew, Body: &bath.Handover{Note: text}}
}

// newFile makes a station file. When the test is over it is checked from end
// to end, as bbolt's own test helper does with its files.
func newFile(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "station.db")
	s, err := station.Create(path, station.Options{Now: func() time.Time { return noon }}, first()...)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if report, err := station.Verify(path); err != nil {
			t.Errorf("verify: %v: %q", err, report.Findings)
		}
	})
	return path
}

// open opens a station by a clock that stands at noon, or by its own.
func open(t testing.TB, path string, clocks ...*wall) *station.Station {
	t.Helper()
	now := (&wall{now: noon}).read
	for _, w := range clocks {
		now = w.read
	}
	s, err := station.Open(path, station.Options{Now: now, Catalog: shipped()})
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

func write(t testing.TB, s *station.Station, drafts ...station.Draft) []bath.Entry {
	t.Helper()
	entries, err := s.Record(drafts...)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

func stateOf(t testing.TB, s *station.Station) *bath.State {
	t.Helper()
	st, err := s.State()
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// lines is the whole log book.
func lines(t testing.TB, s *station.Station) []bath.Entry {
	t.Helper()
	all, err := s.Lines(0, 1<<30)
	if err != nil {
		t.Fatal(err)
	}
	return all
}
