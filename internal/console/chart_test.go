package console

import (
	"math"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/units"
)

// refilled opens a console on the second fill of the bath, six weeks old: the set
// point was turned down in it, and the mark was looked at twice.
func refilled(t testing.TB, w, h int) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	begun := d.clock.t
	at := func(days float64, by string, b bath.Body) {
		d.clock.t = begun.Add(time.Duration(days * 24 * float64(time.Hour)))
		if _, err := d.st.Record(stationDraft(by, b)); err != nil {
			t.Fatal(err)
		}
	}
	reading := func(days float64, ph units.PH, f float64) {
		at(days, "Lee", &bath.Reading{PH: ph, SampleC: units.Fahrenheit(f), Meter: "M1"})
	}
	reading(3, 10.09, 121)
	at(5, "Noor", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold})
	at(6, "Amari", &bath.Fill{VolumeL: units.Gallons(72)})
	at(6.01, "Amari", &bath.Dose{VolumeL: units.Gallons(1.8)})
	at(6.15, "Amari", &bath.Temp{BathC: units.Fahrenheit(122)})
	at(6.2, "Amari", &bath.Reading{PH: 10.36, SampleC: units.Fahrenheit(122), Meter: "M1", Baseline: true})
	reading(13, 10.29, 120)
	at(15, "Lee", &bath.Water{VolumeL: units.Gallons(2), Cause: bath.CauseEvaporation})
	at(17, "Amari", &bath.Temp{BathC: units.Fahrenheit(119), SetC: new(units.Fahrenheit(118))})
	reading(20, 10.24, 117)
	at(24, "Amari", &bath.Temp{BathC: units.Fahrenheit(118)})
	at(27, "Lee", &bath.Calibration{Meter: "M1", Check: &bath.Dip{Buffer: "carbonate", AtC: 22, PH: 10.02}})
	reading(27.01, 10.16, 118)
	at(30, "Lee", &bath.Water{VolumeL: units.Gallons(3), Cause: bath.CauseEvaporation})
	reading(34, 10.12, 119)
	at(38, "Amari", &bath.Temp{BathC: units.Fahrenheit(117)})
	reading(41, 10.05, 118)
	d.clock.t = begun.Add(43 * 24 * time.Hour)
	d.run(d.m.load())
	return d
}

// chartViews are what the chart of Readings may show, by the keys to it.
var chartViews = map[string][]string{
	"whole":    nil,
	"zoomed":   {"left", "left", "+", "+"},
	"panned":   {"left", "+", "+", ",", ","},
	"compared": {"left", "o"},
}

func TestChartGoldens(t *testing.T) {
	for size, wh := range map[string][2]int{"100x30": {100, 30}, "200x60": {200, 60}, "100x38": {100, 38}, "60x16": {60, 16}} {
		for view, keys := range chartViews {
			t.Run(view+"-"+size, func(t *testing.T) {
				d := refilled(t, wh[0], wh[1])
				d.press("2")
				if wh[1] < 19 {
					d.press("tab")
				}
				d.press(keys...)
				d.golden("chart-" + view + "-" + size)
			})
		}
	}
	for name, g := range map[string]chart.Glyphs{"block": chart.Block, "ascii": chart.ASCII} {
		t.Run(name, func(t *testing.T) {
			d := refilled(t, 100, 40)
			d.look(0, true, g)
			d.press("2", "left", "o", "+")
			d.golden("chart-compared-" + name)
		})
	}
}

// readingsChart is the chart of Readings.
func (d *desk) readingsChart() *seriesChart { return &d.m.screens["2"].(*readings).chart }

// The marked reading and the cursor are one, whichever way it is moved.
func TestTheCursorIsTheMarkedReading(t *testing.T) {
	d := refilled(t, 100, 30)
	d.press("2")
	cursor := chart.Braille.Cursor() + " "
	d.wants(cursor+"Sun 3 May 07:00 · pH 10.05 at 118 °F", "▸ Sun 3 May 07:00")
	d.press("left")
	d.wants(cursor+"Sun 26 Apr 07:00 · pH 10.12 at 119 °F", "▸ Sun 26 Apr 07:00")
	d.press("down")
	d.wants(cursor+"Sun 19 Apr 07:14 · pH 10.16 at 118 °F", "▸ Sun 19 Apr 07:14")
	d.press("right", "up", "right")
	d.wants(cursor + "Sun 3 May 07:00 · pH 10.05 at 118 °F")
	d.press("end", "left")
	d.wants(cursor+"Sun 29 Mar 11:48 · pH 10.36 at 122 °F · first reading", "▸ Sun 29 Mar 11:48")
}

// A window that the cursor leaves comes after it; one that is panned away says
// so, and comes back with the next step.
func TestTheWindowFollowsTheCursor(t *testing.T) {
	d := refilled(t, 100, 30)
	d.press("2", "+", "+", "+")
	inSight := func() bool {
		c := d.readingsChart()
		from, to := c.window.span(c.reach())
		at := unix(c.marked.At)
		return at >= from && at <= to
	}
	for range 7 {
		d.press("left")
		if !inSight() {
			t.Fatalf("the marked reading is off the chart:\n%s", d.screen())
		}
	}
	d.press(".", ".", ".")
	d.wants("left or right shows it: Sun 29 Mar 11:48")
	d.press("left")
	if !inSight() {
		t.Errorf("the chart stays away from the marked reading:\n%s", d.screen())
	}
}

// Each key that can do nothing says why.
func TestTheChartSaysWhyNot(t *testing.T) {
	for _, c := range []struct {
		name, says string
		keys       []string
	}{
		{"pan all", "All of the fill is shown: zoom in with + first", []string{","}},
		{"out of all", "All of the fill is shown: + zooms in", []string{"-"}},
		{"too near", "Two days are as near as the chart goes", []string{"+", "+", "+", "+", "+", "+", "+", "+"}},
		{"the end", "The chart ends here: backspace shows all of it", []string{"+", ".", ".", ".", "."}},
		{"no fill before", "Nothing to compare with: the log book holds no fill before this one", []string{"o"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sit(t, 100, 30, true)
			d.press("2")
			d.press(c.keys...)
			d.wants(c.says)
			d.press("backspace")
			d.lacks(c.says)
		})
	}
	t.Run("no reading", func(t *testing.T) {
		d := sit(t, 100, 30, false)
		d.press("2", "o")
		d.wants("No fill is open, so there is nothing to show")
		d.record(line{"Amari", &bath.Fill{VolumeL: units.Gallons(72)}})
		d.press("o", "+")
		d.wants("There is no reading to show yet: press p to record one")
	})
	t.Run("drained", func(t *testing.T) {
		d := refilled(t, 200, 60)
		d.record(line{"Noor", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold}})
		d.press("2", ",")
		d.wants("No fill is open.", "No fill is open, so there is nothing to show")
		d.lacks("Bath temperature")
	})
}

// The fill before lies over this one, first reading on first reading, and its
// value as long after stands beside the marked one's.
func TestTheFillBeforeIsCompared(t *testing.T) {
	d := refilled(t, 100, 30)
	d.press("2", "left", "left", "left", "left", "o")
	d.wants("+ bath 1", "bath 1 about 10.3")
	c := d.readingsChart()
	old := c.all()[0].Paths[len(c.all()[0].Paths)-1]
	first := d.m.x.PH.First
	if old.X[0] != unix(first.At) || old.Y[0] != 10.42 || !old.Thin {
		t.Errorf("the fill before begins at %v with %v, want at this one's first reading, %v, with 10.42", old.X[0], old.Y[0], unix(first.At))
	}
	if days := (old.X[2] - old.X[0]) / 86400; math.Abs(days-13.8194) > 0.001 { // from 2 March 12:20 to 16 March 08:00
		t.Errorf("its third reading is %.4f days after the first", days)
	}
	d.press("o")
	d.lacks("bath 1")
	d.press("o")
	d.record(line{"Noor", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold}}, line{"Amari", &bath.Fill{VolumeL: units.Gallons(72)}})
	if c.earlier != nil || c.compare {
		t.Error("a new fill is still compared with the fill before the last")
	}
}

// What is zoomed in on stays when a minute passes or a reading is added, and goes
// with the fill.
func TestTheWindowStaysWithTheFill(t *testing.T) {
	d := refilled(t, 100, 30)
	d.press("2", "left", "left", "+", "+")
	shown := d.readingsChart().shownSay()
	d.clock.t = d.clock.t.Add(time.Minute)
	d.send(clockMsg(d.clock.t))
	d.record(line{"Lee", &bath.Reading{PH: 10.01, SampleC: units.Fahrenheit(118), Meter: "M1"}})
	d.wants(shown)
	d.record(line{"Noor", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold}}, line{"Amari", &bath.Fill{VolumeL: units.Gallons(72)}})
	if c := d.readingsChart(); c.window != (window{}) {
		t.Errorf("the next fill begins zoomed in: %+v", c.window)
	}
}

// TestWindowIsInsideTheChart: whatever is done to it, a window lies inside the
// chart, is never less than two days of it, and zooming out leads back to all.
func TestWindowIsInsideTheChart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(1.7e9, 1.8e9).Draw(t, "lo")
		hi := lo + rapid.Float64Range(1, 400*86400).Draw(t, "length")
		at := rapid.Float64Range(lo-86400, hi+86400)
		var w window
		for range rapid.IntRange(0, 30).Draw(t, "keys") {
			before, beforeTo := w.span(lo, hi)
			in := at.Draw(t, "at")
			switch rapid.SampledFrom([]string{"in", "out", "pan", "follow", "grow"}).Draw(t, "key") {
			case "in":
				if w.zoom(true, lo, hi, in) {
					if from, to := w.span(lo, hi); in >= from && in <= to && to-from > beforeTo-before {
						t.Fatalf("zooming in shows more: %v to %v", from, to)
					}
				}
			case "out":
				w.zoom(false, lo, hi, in)
			case "pan":
				later := rapid.Bool().Draw(t, "later")
				moved := w.pan(later, lo, hi)
				if from, _ := w.span(lo, hi); moved && (from > before) != later || !moved && math.Abs(from-before) > 1e-3 {
					t.Fatalf("panned from %v to %v, and says %v", before, from, moved)
				}
			case "follow":
				w.follow(lo, hi, in)
				if from, to := w.span(lo, hi); in >= lo && in <= hi && (in < from-1e-3 || in > to+1e-3) {
					t.Fatalf("%v is not in %v to %v", in, from, to)
				}
			case "grow":
				hi += 60
			}
			from, to := w.span(lo, hi)
			if from < lo || to > hi+1e-3 || to-from < min(leastWindow, hi-lo)-1e-3 {
				t.Fatalf("%v to %v of %v to %v is shown", from, to, lo, hi)
			}
		}
		for i := 0; !w.whole(lo, hi); i++ {
			if i > 30 || !w.zoom(false, lo, hi, lo) {
				t.Fatalf("zooming out ends at %+v", w)
			}
		}
	})
}

// The strips stand under the pH on the same columns: the cursor goes through all
// of them, and through nothing else.
func TestStripsShareTheColumns(t *testing.T) {
	d := refilled(t, 200, 60)
	d.press("2", "left", "left")
	cursor := []rune(chart.Braille.Cursor())[0]
	lines := strings.Split(d.screen(), "\n")
	var cols []int
	strips := 0
	for _, l := range lines[5:] {
		if strings.HasPrefix(l, "━") { // the list begins
			break
		}
		if strings.Contains(l, "Bath temperature") || strings.Contains(l, "Level") {
			strips++
		}
		for i, r := range []rune(l) {
			if r == cursor {
				cols = append(cols, i)
			}
		}
	}
	if strips != 2 || len(cols) < 25 {
		t.Fatalf("%d strips and a cursor %d rows high:\n%s", strips, len(cols), d.screen())
	}
	for _, c := range cols {
		if c != cols[0] {
			t.Fatalf("the cursor is in columns %v:\n%s", cols, d.screen())
		}
	}
}

// A low window has room for one thing: tab puts the chart in the list's place,
// and so does a key that changes what the chart shows.
func TestALowWindowShowsTheChartInstead(t *testing.T) {
	d := refilled(t, 60, 16)
	d.press("2")
	d.wants("Readings of bath 2")
	d.press("tab")
	d.wants("limit 9.86", chart.Braille.Cursor())
	d.lacks("Readings of bath 2")
	d.press("tab")
	d.wants("Readings of bath 2")
	d.press("+")
	d.wants("limit 9.86")
	d.press("v")
	d.wants("Meters: calibrations and dips")
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	d.wants("Meters: calibrations and dips", "limit 9.86")
}

// Moving the cursor moves no label and no value: only its own columns and its
// own line change in the chart.
func TestTheCursorMovesNothingElse(t *testing.T) {
	d := refilled(t, 100, 30)
	d.press("2", "left")
	without := func() string {
		var out []string
		c := d.readingsChart()
		for _, l := range c.view()[2:] {
			out = append(out, ansi.Strip(l))
		}
		return strings.Join(out, "\n")
	}
	cursor := chart.Braille.Cursor()
	before := strings.Split(without(), "\n")
	d.press("left")
	after := strings.Split(without(), "\n")
	for y := range before {
		a, b := []rune(before[y]), []rune(after[y])
		for x := range a {
			if a[x] != b[x] && string(a[x]) != cursor && string(b[x]) != cursor {
				t.Errorf("row %d changes beside the cursor (-before +after):\n%s", y, cmp.Diff(before[y], after[y]))
				break
			}
		}
	}
}
