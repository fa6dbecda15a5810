package console

import (
	"fmt"
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

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

// From these heights of the body on there is a chart above the table, there are
// strips under the chart, and these are higher.
const (
	chartFrom, stripsFrom, highFrom = 16, 34, 50
)

// low reports whether there is room for the chart or the table only.
func (s *readings) low() bool { return s.l.body.Dy() < chartFrom }

// chartH is the height of the chart with its title: a little over half, and more
// with strips under it.
func (s *readings) chartH() int {
	switch h := s.l.body.Dy(); {
	case s.low() && s.showChart:
		return h
	case s.low():
		return 0
	case h < stripsFrom:
		return h * 11 / 20
	default:
		return h * 13 / 20
	}
}

func (s *readings) sizeChart() {
	strip := 0
	switch h := s.l.body.Dy(); {
	case h >= highFrom:
		strip = 5
	case h >= stripsFrom:
		strip = 3
	}
	s.chart.setSize(s.l.w, max(0, s.chartH()-1), strip)
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

func (s *readings) table(w, h int) []string {
	lines := []string{s.t.muted.Render("   " + pad("when", s.whenW()) + "  pH     sample   would read  against the first   meter   who")}
	series := s.series()
	if len(series) == 0 {
		return rows(append(lines, "   No reading yet: press p."), w, h)
	}
	foot := s.foot(series[s.at], w, h)
	room := h - len(foot)
	first := firstShown(s.at, len(series), room-1)
	for i := first; i < len(series) && len(lines) < room; i++ {
		lines = append(lines, s.tableRow(series[i], i == s.at))
	}
	return append(rows(lines, w, room), foot...)
}

// foot is what the marked reading is worth, where the table leaves room for it.
func (s *readings) foot(r advise.Judged, w, h int) []string {
	if h < 8 {
		return nil
	}
	foot := []string{""}
	for _, say := range s.x.ReadingSay(r) {
		foot = append(foot, "   "+s.t.muted.Render(ansi.Truncate(say, w-4, "…")))
	}
	return foot
}

func (s *readings) tableRow(r advise.Judged, marked bool) string {
	mark := "   "
	when := s.x.Times.DayClock(s.x.Local(r.At))
	if marked {
		mark = s.t.mark(" ▸ ", " > ")
	}
	line := fmt.Sprintf("%s%s  %5.2f  %s  %s  %s  %s  %s", mark, pad(when, s.whenW()), float64(r.Is.PH),
		pad(s.x.Sys.Temp(r.Is.SampleC), 7), pad(equivalent(s.x, r), 10), pad(against(r), 18), pad(clean(r.Is.Meter), 6), clean(r.By))
	if marked {
		return s.t.accent.Render(line)
	}
	return line
}

// whenW is how wide the times of a list stand.
func (s *readings) whenW() int { return max(18, s.x.Times.DayClockW()) }

// equivalent is what a reading at another temperature would read at that of
// the first one.
func equivalent(x *advise.Snapshot, r advise.Judged) string {
	ph, first, ok := x.PH.AtFirst(r)
	if !ok || advise.Like(r.Is, first.Is) || r.Is.Baseline {
		return ""
	}
	return fmt.Sprintf("%.2f", float64(ph))
}

// against says how a reading stands to the first one.
func against(r advise.Judged) string {
	switch {
	case r.Doubt.Kind == advise.DoubtRose:
		return "doubtful: rose"
	case r.Doubt.Kind == advise.DoubtMeter:
		return "doubtful: meter"
	case r.Is.Baseline && r.Is.Cooled:
		return "first, cooled cup"
	case r.Is.Baseline:
		return "first reading"
	case r.Drop == nil:
		return "not compared"
	case *r.Drop < -0.005:
		return "up " + advise.GiveOrTake(-*r.Drop, r.U)
	}
	return "down " + advise.GiveOrTake(max(0, *r.Drop), r.U)
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
