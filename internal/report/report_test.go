package report

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

var rewrite = flag.Bool("rewrite", false, "rewrite the golden files")

// golden compares got with testdata/name and holds what every text of this
// package promises: no escapes, no control characters, nothing wider than a
// page.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	checkText(t, string(got))
	path := filepath.Join("testdata", name)
	if *rewrite {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s differs (-want +got); look at it, then run with -rewrite:\n%s", path, diff)
	}
}

// reporter is a test, or a run of a property.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func checkText(t reporter, s string) {
	t.Helper()
	for i, line := range strings.Split(s, "\n") {
		line = strings.TrimPrefix(line, "\f")
		if w := ansi.StringWidth(line); w > width {
			t.Errorf("line %d is %d columns wide: %q", i+1, w, line)
		}
		if strings.HasSuffix(line, " ") {
			t.Errorf("line %d ends in a space: %q", i+1, line)
		}
		if strings.ContainsFunc(line, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) {
			t.Errorf("line %d holds a control character: %q", i+1, line)
		}
	}
}

// written is what a Write function writes.
func written(t *testing.T, write func(*bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

var denver = mustZone("America/Denver")

func mustZone(name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return loc
}

// at reads a time of the invented station's November 2026: "19 06:40".
func at(day string) time.Time {
	t, err := time.ParseInLocation("2006-01 2 15:04", "2026-11 "+day, denver)
	if err != nil {
		panic(err)
	}
	return t
}

// book is a log book under construction. Its people and figures are invented.
type book []bath.Entry

// add writes an entry as soon as it has happened.
func (b *book) add(day, by string, body bath.Body) *book {
	e := bath.Entry{Seq: uint64(len(*b) + 1), At: at(day), Logged: at(day), By: by, Body: body}
	if s, _ := bath.SpecOf(e.Kind()); s.Scope != bath.OfStation || s.Kind == "tank" {
		e.Bath = "main"
	}
	*b = append(*b, e)
	return b
}

// last changes the entry that was added last.
func (b *book) last(change func(*bath.Entry)) *book {
	change(&(*b)[len(*b)-1])
	return b
}

func (b *book) state(t reporter) *bath.State {
	t.Helper()
	st, err := bath.Fold(*b)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func (b *book) look(t reporter, day string) *advise.Snapshot {
	t.Helper()
	x, err := advise.Assess(b.state(t), "main", at(day))
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// setUp is a station before its first fill.
func setUp() *book {
	yes := true
	return new(book).
		add("1 09:00", "Ilse Varga", &bath.Member{Name: "Ilse Varga", Role: bath.Officer, Initials: "IV"}).
		add("1 09:00", "Ilse Varga", &bath.Setting{Station: "Harrow Point, station 5", Zone: "America/Denver", Shift: "24/48@07:00"}).
		add("1 09:00", "Ilse Varga", &bath.Tank{
			Name: "Bay 2 bath", VolumeL: units.Gallons(75), LowL: units.Gallons(61), Mark: "top of the weld seam", Lid: &yes,
			Product: "Alkaline soap, inhibited", Ratio: 40, Strongest: 20, ContainerL: units.Gallons(1), Container: "jug",
		}).
		add("1 09:10", "Ilse Varga", &bath.Member{Name: "Teo Lund", Role: bath.KeyHolder, Platoon: "B", Initials: "TL"}).
		add("1 09:10", "Ilse Varga", &bath.Member{Name: "Amari Boone", Platoon: "C", Initials: "AB"})
}

// inUse is a bath three weeks old that is getting close to its limit.
func inUse() *book {
	b := setUp().
		add("3 08:00", "Ilse Varga", &bath.Fill{VolumeL: units.Gallons(75)}).
		add("3 08:30", "Ilse Varga", &bath.Dose{VolumeL: units.Gallons(2)}).
		add("3 11:00", "Ilse Varga", &bath.Temp{BathC: units.Fahrenheit(121)}).
		add("3 11:20", "Teo Lund", &bath.Degas{Time: units.Minutes(15)}).
		add("3 11:30", "Teo Lund", &bath.Calibration{Meter: "M2", Points: bath.Points{
			{Buffer: "phosphate", AtC: units.Fahrenheit(77), MV: 8}, {Buffer: "carbonate", AtC: units.Fahrenheit(77), MV: -175},
		}}).
		add("3 11:40", "Teo Lund", &bath.Reading{PH: 10.42, SampleC: units.Fahrenheit(121), Meter: "M2", Baseline: true}).
		add("3 13:00", "Teo Lund", &bath.Reading{PH: 10.93, SampleC: units.Fahrenheit(73), Meter: "M2", Baseline: true, Cooled: true}).
		add("10 06:40", "Amari Boone", &bath.Reading{PH: 10.31, SampleC: units.Fahrenheit(120), Meter: "M2"}).
		add("17 06:45", "Teo Lund", &bath.Reading{PH: 10.20, SampleC: units.Fahrenheit(122), Meter: "M2"}).
		add("18 02:30", "Teo Lund", &bath.Wash{
			Items: []bath.Load{{Item: "mask", Name: "Mask", Count: 6}, {Item: "nozzle", Name: "Nozzle or coupling", Count: 2}},
			Soil:  "normal", Time: units.Minutes(4), BathC: units.Fahrenheit(105), Result: bath.ResultClean,
		}).
		add("18 04:00", "Teo Lund", &bath.Filter{Time: units.Minutes(30)})
	b.add("24 06:25", "Amari Boone", &bath.Calibration{Meter: "M2", Check: &bath.Dip{Buffer: "carbonate", AtC: units.Fahrenheit(77), PH: 10.03}})
	b.add("24 06:30", "Amari Boone", &bath.Reading{PH: 10.80, SampleC: units.Fahrenheit(121), Meter: "M2"})
	wrong := uint64(len(*b))
	return b.
		add("24 06:35", "Amari Boone", &bath.Strike{Target: wrong, Why: "typed 10.80 for 10.08", Instead: []byte(`{"ph":10.08,"sample_c":49.44,"meter":"M2"}`)}).
		add("25 21:10", "Teo Lund", &bath.Wash{
			Items: []bath.Load{{Item: "helmet", Name: "Helmet shell", Count: 3}},
			Soil:  "heavy", Time: units.Minutes(7), BathC: units.Fahrenheit(118), Result: bath.ResultAgain, Note: "tar on two of them",
		}).
		add("25 22:00", "Teo Lund", &bath.Water{VolumeL: units.Gallons(1.5), Cause: bath.CauseCarryOut}).
		add("25 22:05", "Teo Lund", &bath.Temp{BathC: units.Fahrenheit(112)}).
		add("25 22:30", "Teo Lund", &bath.Handover{Note: "two helmets still wait for a second wash, hung by the bay door; do not stack them"})
}
