package console

import (
	"fmt"
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/chart"
)

// readings is screen 2: the series of the fill as a chart and as a table, or
// in the table's place what the meters are worth. A low window shows one of them
// at a time.
type readings struct {
	t     *theme
	x     *advise.Snapshot
	l     layout
	chart seriesChart
	at    int // from the newest; the cursor of the chart stands there too

	meters     meterPage
	showMeters bool
	showChart  bool // in a low window
}

func newReadings() *readings { return new(readings) }

func (s *readings) setTheme(t *theme) { s.t, s.meters.t = t, t; s.chart.setTheme(t) }

func (s *readings) setSize(l layout) {
	s.l = l
	s.sizeChart()
}

func (s *readings) setSnapshot(x *advise.Snapshot) {
	s.x, s.meters.x = x, x
	s.chart.setSnapshot(x)
	s.mark(min(s.at, max(0, len(s.series())-1)), false)
}

// mark moves to a reading, counted from the newest, and the chart's cursor with
// it.
func (s *readings) mark(at int, follow bool) {
	s.at = at
	series := s.series()
	if len(series) == 0 {
		s.chart.mark(nil, false)
		return
	}
	s.chart.mark(&series[at], follow)
}

// series is the readings of the fill, newest first.
func (s *readings) series() []advise.Judged {
	if s.x == nil {
		return nil
	}
	r := slices.Clone(s.x.PH.Readings)
	slices.Reverse(r)
	return r
}

func (s *readings) bindings() []key.Binding {
	b := []key.Binding{keys.up, keys.down}
	if s.low() {
		b = append(b, chartKeys.swap)
	}
	if s.showMeters {
		b = append(b, keys.addCheck)
	}
	return append(append(b, keys.strike, keys.meters), chartKeys.list()...)
}

func (s *readings) key(msg tea.KeyPressMsg) action {
	switch {
	case key.Matches(msg, keys.meters):
		s.showMeters, s.showChart = !s.showMeters, false
		s.sizeChart()
		return nil
	case s.low() && key.Matches(msg, chartKeys.swap):
		s.showChart = !s.showChart
		s.sizeChart()
		return nil
	case s.showMeters && key.Matches(msg, keys.addCheck):
		return openForm{kind: "calibration", preset: s.presetMeter()}
	}
	if a, ok := s.keyChart(msg); ok {
		return a
	}
	if s.showMeters {
		return s.keyMeters(msg)
	}
	return s.keyList(msg)
}

func (s *readings) keyList(msg tea.KeyPressMsg) action {
	series := s.series()
	if len(series) == 0 {
		return nil
	}
	if at, ok := moved(msg, s.at, len(series), s.l.body.Dy()-s.chartH()-2); ok {
		s.mark(at, true)
		return nil
	}
	if key.Matches(msg, keys.strike) {
		return openStrike{series[s.at].Entry}
	}
	return nil
}

func (s *readings) keyMeters(msg tea.KeyPressMsg) action {
	marked, ok := s.meters.marked()
	if !ok {
		return nil
	}
	if at, ok := moved(msg, s.meters.at, len(s.meters.checks()), s.l.body.Dy()-s.chartH()-2); ok {
		s.meters.at = at
		return nil
	}
	if key.Matches(msg, keys.strike) {
		return openStrike{marked.Entry}
	}
	return nil
}

// presetMeter fills in the meter that was read with last.
func (s *readings) presetMeter() map[string]string {
	if s.x.PH.Latest == nil || s.x.PH.Latest.Is.Meter == "" {
		return nil
	}
	return map[string]string{"meter": s.x.PH.Latest.Is.Meter}
}

func (s *readings) view() []string {
	var out []string
	w := s.l.w
	if s.x == nil {
		return rows(nil, w, s.l.body.Dy())
	}
	if h := s.chartH(); h > 0 {
		out = append(out, s.t.title(s.chartTitle(), w, s.low()))
		out = append(out, s.chart.view()...)
	}
	if s.low() && s.showChart {
		return out
	}
	if s.showMeters {
		out = append(out, s.t.title("Meters: calibrations and dips", w, true))
		return append(out, s.meters.view(w, s.l.body.Dy()-len(out))...)
	}
	out = append(out, s.t.title(fmt.Sprintf("Readings of bath %d", s.x.Life.Number), w, true))
	return append(out, s.table(w, s.l.body.Dy()-len(out))...)
}

func (s *readings) chartTitle() string {
	at := ""
	if s.x.PH.First != nil {
		at = " at " + s.x.Sys.Temp(s.x.PH.First.Is.SampleC)
	}
	if e := s.chart.earlier; e != nil {
		at += " · " + s.t.glyphs.Mark(chart.Other) + " " + earlierSay(s.x, *e)
	}
	return "pH" + at + " · " + legend(s.t)
}

func legend(t *theme) string {
	g := t.glyphs
	return fmt.Sprintf("%s as read  %s restated or doubtful, %s as it was read  %s soap  %s meter",
		g.Mark(chart.Solid), g.Mark(chart.Hollow), g.Mark(chart.Raw), g.Mark(chart.Dose), g.Mark(chart.Check))
}

// moved is where a list stands after a key, and whether the key moves lists.
func moved(msg tea.KeyPressMsg, at, n, page int) (int, bool) {
	switch {
	case key.Matches(msg, keys.up):
		at--
	case key.Matches(msg, keys.down):
		at++
	case key.Matches(msg, keys.pageUp):
		at -= max(1, page)
	case key.Matches(msg, keys.pageDown):
		at += max(1, page)
	case key.Matches(msg, keys.home):
		at = 0
	case key.Matches(msg, keys.end):
		at = n - 1
	default:
		return at, false
	}
	return max(0, min(n-1, at)), true
}
