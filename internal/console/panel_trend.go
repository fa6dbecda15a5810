package console

import (
	"fmt"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chart"
)

// trendPanel plots the pH series of a fill against time, as read. Today shows
// it small under a line of words, Readings large.
type trendPanel struct {
	t     *theme
	x     *advise.Snapshot
	w, h  int
	all   bool     // also what was read at another temperature
	drawn []string // cache, until something it depends on is set
}

func (p *trendPanel) setTheme(t *theme) { p.t, p.drawn = t, nil }

func (p *trendPanel) setSnapshot(x *advise.Snapshot) { p.x, p.drawn = x, nil }

func (p *trendPanel) setSize(w, h int) {
	if w != p.w || h != p.h {
		p.w, p.h, p.drawn = w, h, nil
	}
}

func (p *trendPanel) title() string              { return "Trend" }
func (p *trendPanel) bindings() []key.Binding    { return []key.Binding{keys.readings, keys.reading} }
func (p *trendPanel) key(tea.KeyPressMsg) action { return nil }

func (p *trendPanel) view() []string {
	if p.drawn == nil {
		p.drawn = rows(p.draw(), p.w, p.h)
	}
	return p.drawn
}

func (p *trendPanel) draw() []string {
	if p.x == nil || p.h == 0 {
		return nil
	}
	words := " " + trendSay(p.x)
	if len(bath.Of[*bath.Reading](p.x.Life.Entries)) == 0 || p.h < 5 {
		return []string{words}
	}
	return append([]string{words}, p.chart(p.w, p.h-1)...)
}

func (p *trendPanel) chart(w, h int) []string {
	var out []string
	for _, r := range plot(p.x, p.t.glyphs, p.all).Draw(w, h) {
		line := ""
		for _, s := range r {
			line += p.t.chartStyle(s.Role).Render(s.Text)
		}
		out = append(out, line)
	}
	return out
}

// trendSay is the trend as one line of words.
func trendSay(x *advise.Snapshot) string {
	switch {
	case !x.Open:
		return "No fill is open."
	case x.PH.Latest == nil:
		return "No reading yet."
	case x.PH.Drop == nil:
		return "Not known: " + x.PH.Why + "."
	}
	days := int(x.PH.Last.At.Sub(x.PH.Against.At).Hours()/24 + 0.5)
	over := fmt.Sprintf("over %d days", days)
	if days < 2 {
		over = "since the first reading"
	}
	if *x.PH.Drop < 0 {
		return fmt.Sprintf("Up %.2f %s; act at %.2f down.", -*x.PH.Drop, over, x.PH.Limit)
	}
	return fmt.Sprintf("Down %.2f %s; act at %.2f.", *x.PH.Drop, over, x.PH.Limit)
}

// plot is the series of the fill: solid where it was read at about the first
// reading's temperature and is trusted, hollow where it was not. Without all,
// readings at another temperature are left out, to keep the scale.
func plot(x *advise.Snapshot, g chart.Glyphs, all bool) chart.Plot {
	p := chart.Plot{Glyphs: g, XTicks: chart.Calendar(x.Now.Location()), YFormat: func(v float64) string { return fmt.Sprintf("%.1f", v) }}
	doubtful := map[uint64]bool{}
	for _, d := range x.PH.Doubtful {
		doubtful[d.Seq] = true
	}
	for _, r := range bath.Of[*bath.Reading](x.Life.Entries) {
		mark := chart.Solid
		like := x.PH.First != nil && bath.Like(r.Is, x.PH.First.Is)
		if x.PH.First != nil && !like && !all {
			continue
		}
		if doubtful[r.Seq] || !like {
			mark = chart.Hollow
		}
		p.Points = append(p.Points, chart.Point{X: unix(r.At), Y: float64(r.Is.PH), Mark: mark})
	}
	for i, d := range bath.Of[*bath.Dose](x.Life.Entries) {
		if i > 0 {
			p.Events = append(p.Events, chart.Event{X: unix(d.At), Mark: chart.Dose, Label: "+" + x.Sys.Volume(d.Is.VolumeL)})
		}
	}
	if x.PH.First != nil {
		first := float64(x.PH.First.Is.PH)
		p.Lines = []chart.Line{
			{Y: first, Label: fmt.Sprintf("first %.2f", first)},
			{Y: first - x.PH.Limit, Label: fmt.Sprintf("limit %.2f", first-x.PH.Limit), Limit: true},
		}
	}
	p.X0, p.X1 = unix(x.Life.Fill.At), unix(x.Now)
	return p
}

func unix(t time.Time) float64 { return float64(t.Unix()) }
