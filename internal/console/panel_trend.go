package console

import (
	"fmt"
	"math"
	"strings"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chart"
)

// trendPanel plots the pH series of a fill against time, small, under a line of
// words. Readings has it large, as seriesChart.
type trendPanel struct {
	t     *theme
	x     *advise.Snapshot
	w, h  int
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
	words := " " + trendWords(p.x, p.w-1, false)
	if len(bath.Of[*bath.Reading](p.x.Life.Entries)) == 0 || p.h < 5 {
		return []string{words}
	}
	return append([]string{words}, p.t.plot(plot(p.x, p.t.glyphs, false), p.w, p.h-1)...)
}

// trendWords are the trend in one line of w cells: Today leads with the drop,
// Readings, where all is shown, with how long the bath is likely good.
func trendWords(x *advise.Snapshot, w int, all bool) string {
	switch {
	case !x.Open:
		return "No fill is open."
	case x.PH.Latest == nil:
		return "No reading yet."
	case x.PH.Drop == nil:
		return fit(w, "Not known: "+x.PH.Why+".")
	}
	drop, over, act := dropSay(x)
	far := farSay(x)
	if far == "" {
		return fit(w, drop+" "+over+"; "+act+".")
	}
	if all {
		return fit(w, capital(far)+" · "+drop+" "+over+"; "+act, capital(far)+" · "+drop+" "+over, capital(far))
	}
	short := near(far)
	return fit(w, drop+" "+over+"; "+far+".", drop+" "+over+"; "+short+".", drop+"; "+short+".", capital(short)+".")
}

// farSay is the forecast in words; "" where there is none, and where the bath is
// at its limit already: a fit of all the readings may put the date later.
func farSay(x *advise.Snapshot) string {
	if !x.Trend.Known() || x.PH.State == advise.PHAtLimit || x.PH.State == advise.PHPast {
		return ""
	}
	return x.Trend.Say(x)
}

// near is a forecast without how far it may be out.
func near(far string) string {
	short, _, _ := strings.Cut(far, ",")
	return short
}

// dropSay is how far the pH fell, since when, and when to act.
func dropSay(x *advise.Snapshot) (drop, over, act string) {
	days := int(x.PH.Last.At.Sub(x.PH.Last.Against.At).Hours()/24 + 0.5)
	over = fmt.Sprintf("over %d days", days)
	if days < 2 {
		over = "since the first reading"
	}
	if *x.PH.Drop < 0 {
		return fmt.Sprintf("Up %.2f", -*x.PH.Drop), over, fmt.Sprintf("act at %.2f down", x.PH.Limit)
	}
	return fmt.Sprintf("Down %.2f", *x.PH.Drop), over, fmt.Sprintf("act at %.2f", x.PH.Limit)
}

// plot is the series of the fill as it would read at the first reading's
// temperature: solid where it was read at about that and is trusted, hollow
// where it was restated or is doubtful. With all there are the pH as read
// beside what was restated, the meter's checks, and where the bath likely goes.
func plot(x *advise.Snapshot, g chart.Glyphs, all bool) chart.Plot {
	p := chart.Plot{Glyphs: g, XTicks: chart.Labels{Clock: x.Times.Clock, Date: x.Times.Date}.Calendar(x.Now.Location()), YFormat: func(v float64) string { return fmt.Sprintf("%.1f", v) }}
	for _, r := range x.PH.Readings {
		if r.Doubt.Kind == advise.DoubtClock { // it would stretch the chart to its date
			continue
		}
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
	if all {
		addFan(&p, x)
	}
	return p
}

// addFan draws where the bath likely goes, to a week beyond the day that is as
// likely too early as too late, four weeks at most. What lies outside of all the
// rest of the chart is cut off: it would press the readings together.
func addFan(p *chart.Plot, x *advise.Snapshot) {
	if !x.Trend.Known() {
		return
	}
	low, high := reach(*p)
	var fan chart.Band
	var mid chart.Path
	for _, f := range x.Trend.Fan(x.Now, min(28, int(x.Trend.Q50)+7)) {
		at := unix(f.At)
		if f.High >= low && f.Low <= high {
			fan.X, fan.Lo, fan.Hi = append(fan.X, at), append(fan.Lo, max(f.Low, low)), append(fan.Hi, min(f.High, high))
		}
		if f.Mid >= low && f.Mid <= high {
			mid.X, mid.Y = append(mid.X, at), append(mid.Y, f.Mid)
		}
		p.X1 = max(p.X1, at)
	}
	p.Bands, p.Paths = append(p.Bands, fan), append(p.Paths, mid)
}

// reach is how low and how high the points and lines of a chart lie, and a
// little more.
func reach(p chart.Plot) (low, high float64) {
	const more = 0.15
	low, high = math.Inf(1), math.Inf(-1)
	for _, q := range p.Points {
		low, high = min(low, q.Y-q.Err), max(high, q.Y+q.Err)
	}
	for _, l := range p.Lines {
		low, high = min(low, l.Y), max(high, l.Y)
	}
	return low - more, high + more
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

func timeAt(x float64) time.Time { return time.Unix(int64(x), 0) }
