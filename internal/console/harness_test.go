package console

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"bathside/assets"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/chart"
	"bathside/internal/guide"
	"bathside/internal/report"
	"bathside/internal/station"
	"bathside/internal/units"
)

var rewrite = flag.Bool("rewrite", false, "rewrite golden files")

// clock is a time that tests move by hand.
type clock struct{ t time.Time }

func (c *clock) now() time.Time { return c.t }

// start is the first minute of the invented station of these tests: a Monday.
var start = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

func testCatalog(t testing.TB) *catalog.Catalog {
	t.Helper()
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return cat
}

func testGuides(t testing.TB) []guide.Guide {
	t.Helper()
	all, err := guide.Load(assets.FS, GuideForm)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// newStation sets up a real station file with three members and one tank.
func newStation(t testing.TB, c *clock) *station.Station {
	t.Helper()
	return newStationAt(t, c, filepath.Join(t.TempDir(), "station.db"))
}

// newStationAt is the same in a file of one's own.
func newStationAt(t testing.TB, c *clock, path string) *station.Station {
	t.Helper()
	st, err := station.Create(path, station.Options{Now: c.now, Catalog: testCatalog(t)},
		station.Draft{By: "Noor Haddad", Body: &bath.Member{Name: "Noor Haddad", Role: bath.Officer}},
		station.Draft{By: "Noor Haddad", Body: &bath.Member{Name: "Amari Okafor", Role: bath.KeyHolder, Platoon: "A"}},
		station.Draft{By: "Noor Haddad", Body: &bath.Member{Name: "Lee Tran", Role: bath.Crew, Platoon: "B"}},
		station.Draft{By: "Noor Haddad", Body: &bath.Setting{Station: "Mill Road, station 5", Units: "us", Zone: "UTC", Shift: "24/48@07:00"}},
		station.Draft{By: "Noor Haddad", Bath: "main", Body: &bath.Tank{
			Name: "Bay 1 bath", VolumeL: units.Gallons(72), LowL: units.Gallons(58), Mark: "lower rim of the overflow", HeaterW: 6000,
			Product: "alkaline liquid", Ratio: 40, Strongest: 20, ContainerL: units.Gallons(1), Container: "jug",
		}},
	)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// tended brings the bath into service and tends it for three weeks.
func tended(t testing.TB, c *clock, st *station.Station) {
	t.Helper()
	record := func(after time.Duration, by string, b bath.Body) {
		t.Helper()
		c.t = start.Add(after)
		if _, err := st.Record(station.Draft{By: by, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	const d = 24 * time.Hour
	water := units.Fahrenheit(58)
	record(0, "Amari", &bath.Fill{VolumeL: units.Gallons(72), WaterC: &water})
	record(10*time.Minute, "Amari", &bath.Dose{VolumeL: units.Gallons(1.8)})
	record(3*time.Hour, "Amari", &bath.Temp{BathC: units.Fahrenheit(121)})
	record(4*time.Hour, "Amari", &bath.Degas{Time: units.Minutes(15)})
	record(4*time.Hour+10*time.Minute, "Amari", &bath.Calibration{Meter: "M1", Points: bath.Points{
		{Buffer: "phosphate", AtC: 25, MV: 8}, {Buffer: "carbonate", AtC: 25, MV: -175},
	}})
	record(4*time.Hour+20*time.Minute, "Amari", &bath.Reading{PH: 10.42, SampleC: units.Fahrenheit(121), Meter: "M1", Baseline: true})
	record(6*time.Hour, "Amari", &bath.Reading{PH: 10.95, SampleC: units.Fahrenheit(72), Baseline: true, Cooled: true})
	record(7*d, "Lee", &bath.Reading{PH: 10.31, SampleC: units.Fahrenheit(120)})
	record(8*d, "Noor", &bath.Duty{What: bath.DutyEyewash})
	record(9*d, "Noor", &bath.Duty{What: bath.DutyFoil})
	record(9*d, "Noor", &bath.Duty{What: bath.DutyInspection})
	record(14*d-10*time.Minute, "Lee", &bath.Calibration{Meter: "M1", Check: &bath.Dip{Buffer: "carbonate", AtC: 22, PH: 10.02}})
	record(14*d, "Lee", &bath.Reading{PH: 10.20, SampleC: units.Fahrenheit(122)})
	record(15*d, "Amari", &bath.Wash{Items: []bath.Load{{Item: "helmet", Count: 2}}, Soil: "normal", Time: units.Minutes(5), BathC: units.Fahrenheit(121), Result: "clean"})
	record(15*d+time.Hour, "Amari", &bath.Filter{Time: units.Minutes(30)})
	record(16*d, "Lee", &bath.Water{VolumeL: units.Gallons(1), Cause: bath.CauseEvaporation})
	record(20*d, "Amari", &bath.Wash{Items: []bath.Load{{Item: "tool", Count: 3}}, Soil: "heavy", Time: units.Minutes(8), BathC: units.Fahrenheit(120), Result: "clean"})
	c.t = start.Add(20*d + 23*time.Hour)
}

// desk drives a console by hand: no goroutines, no timers, no terminal.
type desk struct {
	testing.TB
	m     *Model
	clock *clock
	st    *station.Station
}

// sit opens a console of w by h on a station; tend says whether three weeks
// have passed in it.
func sit(t testing.TB, w, h int, tend bool) *desk {
	t.Helper()
	c := &clock{start}
	st := newStation(t, c)
	if tend {
		tended(t, c, st)
	}
	d := &desk{TB: t, clock: c, st: st}
	d.m = New(Options{Station: st, Catalog: st.Catalog(), Guides: testGuides(t), Now: c.now, Profile: colorprofile.TrueColor, Glyphs: chart.Braille, Context: unwatched(), Handover: report.WriteHandoverIn})
	d.send(tea.WindowSizeMsg{Width: w, Height: h})
	d.run(d.m.load())
	t.Cleanup(func() {
		if err := st.Close(); err != nil {
			t.Error(err)
		}
	})
	return d
}

// send gives the model a message and runs what it asks for, except what would
// wait for time or for another process.
func (d *desk) send(msg tea.Msg) {
	_, cmd := d.m.Update(msg)
	switch msg.(type) {
	case clockMsg, changedMsg: // what they ask for waits for the next one
		return
	}
	d.run(cmd)
}

func (d *desk) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil, tea.QuitMsg:
	case tea.BatchMsg:
		for _, c := range msg {
			d.run(c)
		}
	default:
		d.send(msg)
	}
}

// press sends keys by name; typ sends text a rune at a time.
func (d *desk) press(names ...string) {
	for _, n := range names {
		d.send(keyPress(n))
	}
}

func (d *desk) typ(s string) {
	for _, r := range s {
		d.send(tea.KeyPressMsg{Code: r, Text: string(r)})
	}
}

func (d *desk) screen() string { return ansi.Strip(d.m.View().Content) }

func (d *desk) wants(words ...string) {
	d.Helper()
	for _, w := range words {
		if !strings.Contains(d.screen(), w) {
			d.Fatalf("the screen lacks %q:\n%s", w, d.screen())
		}
	}
}

func (d *desk) lacks(word string) {
	d.Helper()
	if strings.Contains(d.screen(), word) {
		d.Fatalf("the screen should not say %q:\n%s", word, d.screen())
	}
}

// golden compares the plain text of the screen with testdata/name.golden.
func (d *desk) golden(name string) {
	d.Helper()
	var b strings.Builder
	for l := range strings.Lines(d.screen() + "\n") {
		b.WriteString(strings.TrimRight(l, " \n") + "\n")
	}
	path := filepath.Join("testdata", name+".golden")
	if *rewrite {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			d.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			d.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		d.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		d.Errorf("%s differs (-want +got; go test -rewrite updates it)\n%s", path, diff)
	}
}

func stationDraft(by string, b bath.Body) station.Draft { return station.Draft{By: by, Body: b} }

// nothing opens a console where no station has been set up.
func nothing(t testing.TB, w, h int) *desk {
	t.Helper()
	c := &clock{start}
	path := filepath.Join(t.TempDir(), "station.db")
	d := &desk{TB: t, clock: c}
	d.m = New(Options{
		Catalog: testCatalog(t), Now: c.now, Profile: colorprofile.TrueColor, Context: unwatched(), Zone: "UTC",
		Create: func(first ...station.Draft) (*station.Station, error) {
			st, err := station.Create(path, station.Options{Now: c.now, Catalog: testCatalog(t)}, first...)
			d.st = st
			return st, err
		},
	})
	d.send(tea.WindowSizeMsg{Width: w, Height: h})
	t.Cleanup(func() {
		if d.st != nil {
			if err := d.st.Close(); err != nil {
				t.Error(err)
			}
		}
	})
	return d
}

// unwatched is a context in which a watch on the log book ends at once: these
// tests say themselves when another process has written.
func unwatched() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return ctx
}

// reopen opens a station file again, with another clock.
func reopen(t testing.TB, path string, now func() time.Time) *station.Station {
	t.Helper()
	st, err := station.Open(path, station.Options{Now: now, Catalog: testCatalog(t)})
	if err != nil {
		t.Fatal(err)
	}
	return st
}
