package console

import (
	"fmt"
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// readings is screen 2: the series of the fill as a chart and as a table.
type readings struct {
	t     *theme
	x     *advise.Snapshot
	l     layout
	trend trendPanel
	at    int // from the newest
}

func newReadings() *readings { return &readings{trend: trendPanel{all: true}} }

func (s *readings) setTheme(t *theme) { s.t = t; s.trend.setTheme(t) }

func (s *readings) setSize(l layout) {
	s.l = l
	s.trend.setSize(l.w, max(0, s.chartH()-1))
}

// chartH is the height of the chart with its title: a little over half.
func (s *readings) chartH() int {
	if s.l.body.Dy() < 16 {
		return 0
	}
	return s.l.body.Dy() * 11 / 20
}

func (s *readings) setSnapshot(x *advise.Snapshot) {
	s.x = x
	s.trend.setSnapshot(x)
	s.at = min(s.at, max(0, len(s.series())-1))
}

// series is the readings of the fill, newest first.
func (s *readings) series() []bath.Rec[*bath.Reading] {
	if s.x == nil {
		return nil
	}
	r := bath.Of[*bath.Reading](s.x.Life.Entries)
	slices.Reverse(r)
	return r
}

func (s *readings) bindings() []key.Binding {
	return []key.Binding{keys.up, keys.down, keys.strike}
}

func (s *readings) key(msg tea.KeyPressMsg) action {
	series := s.series()
	if len(series) == 0 {
		return nil
	}
	if at, ok := moved(msg, s.at, len(series), s.l.body.Dy()-s.chartH()-2); ok {
		s.at = at
		return nil
	}
	if key.Matches(msg, keys.strike) {
		return openStrike{series[s.at].Entry}
	}
	return nil
}

func (s *readings) view() []string {
	var out []string
	w := s.l.w
	if s.x == nil {
		return rows(nil, w, s.l.body.Dy())
	}
	if h := s.chartH(); h > 0 {
		out = append(out, s.t.title("pH as read · "+legend(s.t), w, false))
		out = append(out, s.trend.view()...)
	}
	out = append(out, s.t.title(fmt.Sprintf("Readings of bath %d", s.x.Life.Number), w, true))
	return append(out, s.table(w, s.l.body.Dy()-len(out))...)
}

func legend(t *theme) string {
	g := t.glyphs
	return fmt.Sprintf("%s comparable  %s not, or doubtful  %s soap", g.Mark(0), g.Mark(1), g.Mark(2))
}

func (s *readings) table(w, h int) []string {
	lines := []string{s.t.muted.Render("   when                pH     sample     against the first     meter   who")}
	series := s.series()
	if len(series) == 0 {
		return rows(append(lines, "   No reading yet: press p."), w, h)
	}
	first := firstShown(s.at, len(series), h-1)
	for i := first; i < len(series) && len(lines) < h; i++ {
		lines = append(lines, s.tableRow(series[i], i == s.at))
	}
	return rows(lines, w, h)
}

func (s *readings) tableRow(r bath.Rec[*bath.Reading], marked bool) string {
	mark := "   "
	when := r.At.In(s.x.Now.Location()).Format("Mon 2 Jan 15:04")
	if marked {
		mark = s.t.mark(" ▸ ", " > ")
	}
	line := fmt.Sprintf("%s%-18s  %5.2f  %-9s  %s  %-6s  %s", mark, when, float64(r.Is.PH),
		s.x.Sys.Temp(r.Is.SampleC), pad(s.against(r), 20), pad(clean(r.Is.Meter), 6), clean(r.By))
	if marked {
		return s.t.accent.Render(line)
	}
	return line
}

// against says how a reading stands to the first one.
func (s *readings) against(r bath.Rec[*bath.Reading]) string {
	for _, d := range s.x.PH.Doubtful {
		if d.Seq == r.Seq {
			return "doubtful: rose"
		}
	}
	switch {
	case r.Is.Baseline && r.Is.Cooled:
		return "first, cooled cup"
	case r.Is.Baseline:
		return "first reading"
	}
	for _, base := range []*bath.Rec[*bath.Reading]{s.x.PH.First, s.x.PH.Cooled} {
		if base != nil && bath.Like(base.Is, r.Is) {
			if d := float64(base.Is.PH - r.Is.PH); d < -0.005 {
				return fmt.Sprintf("up %.2f", -d)
			}
			return fmt.Sprintf("down %.2f", float64(base.Is.PH-r.Is.PH))
		}
	}
	return "other temperature"
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
