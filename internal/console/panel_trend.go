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

// trendPanel plots the pH series of a fill against time. Today shows it small
// under a line of words, Readings large.
type trendPanel struct {
	t     *theme
	x     *advise.Snapshot
	w, h  int
	all   bool     // with error bars, the pH as read, and the meter's checks
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
	days := int(x.PH.Last.At.Sub(x.PH.Last.Against.At).Hours()/24 + 0.5)
	over := fmt.Sprintf("over %d days", days)
	if days < 2 {
		over = "since the first reading"
	}
	if *x.PH.Drop < 0 {
		return fmt.Sprintf("Up %.2f %s; act at %.2f down.", -*x.PH.Drop, over, x.PH.Limit)
	}
	return fmt.Sprintf("Down %.2f %s; act at %.2f.", *x.PH.Drop, over, x.PH.Limit)
}

// plot is the series of the fill as it would read at the first reading's
// temperature: solid where it was read at about that and is trusted, hollow
// where it was restated or is doubtful. With all there are the pH as read
// beside what was restated, and the meter's checks.
func plot(x *advise.Snapshot, g chart.Glyphs, all bool) chart.Plot {
	p := chart.Plot{Glyphs: g, XTicks: chart.Calendar(x.Now.Location()), YFormat: func(v float64) string { return fmt.Sprintf("%.1f", v) }}
	for _, r := range x.PH.Readings {
		p.Points = append(p.Points, points(x, r, all)...)
	}
	for i, d := range bath.Of[*bath.Dose](x.Life.Entries) {
		if i > 0 {
			p.Events = append(p.Events, chart.Event{X: unix(d.At), Mark: chart.Dose, Label: "+" + x.Sys.Volume(d.Is.VolumeL)})
		}
	}
	if all {
		p.Events = append(p.Events, calibrations(x)...)
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

// points is a reading as the chart shows it: at its equivalent, with its error
// bar where there is room for one.
func points(x *advise.Snapshot, r advise.Judged, all bool) []chart.Point {
	p := chart.Point{X: unix(r.At), Y: float64(r.Is.PH), Mark: chart.Hollow}
	ph, _, ok := x.PH.AtFirst(r)
	if !ok {
		return []chart.Point{p}
	}
	if p.Y = float64(ph); !r.Restated && r.Doubt == (advise.Doubt{}) {
		p.Mark = chart.Solid
	}
	if !all {
		return []chart.Point{p}
	}
	p.Err = r.EquivalentU()
	if !r.Restated {
		return []chart.Point{p}
	}
	return []chart.Point{{X: p.X, Y: float64(r.Is.PH), Mark: chart.Raw}, p}
}

// calibrations are the meter's: two buffers, and the dips that it failed.
func calibrations(x *advise.Snapshot) (out []chart.Event) {
	for _, c := range x.Checks() {
		if c.At.Before(x.Life.Fill.At) || c.OK && !c.Is.Full() {
			continue
		}
		label := c.Is.Meter
		if !c.OK {
			label += " failed"
		}
		out = append(out, chart.Event{X: unix(c.At), Mark: chart.Check, Label: label})
	}
	return out
}

func unix(t time.Time) float64 { return float64(t.Unix()) }
