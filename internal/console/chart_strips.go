package console

import (
	"fmt"
	"time"

	"bathside/internal/advise"
	"bathside/internal/chart"
	"bathside/internal/units"
)

// strips are the bath's temperature and its level, to stand under the pH on the
// same days, so many rows each.
func strips(x *advise.Snapshot, g chart.Glyphs, rows int) chart.Stack {
	return chart.Stack{
		{Plot: tempPlot(x), Head: tempHead(x, g), Rows: rows},
		{Plot: levelPlot(x), Head: levelHead(x, g), Rows: rows},
	}
}

func tempHead(x *advise.Snapshot, g chart.Glyphs) string {
	if len(x.Temps()) == 0 {
		return "Bath temperature: not measured yet"
	}
	return "Bath temperature  " + g.Mark(chart.Solid) + " measured; the line is the set point"
}

// tempPlot is what was measured, unjoined: what the bath did in between nobody
// knows.
func tempPlot(x *advise.Snapshot) chart.Plot {
	degrees, unit := func(c units.Temperature) float64 { return float64(c) }, "°C"
	if x.Sys == units.US {
		degrees, unit = units.Temperature.F, "°F"
	}
	p := chart.Plot{YFormat: func(v float64) string { return fmt.Sprintf("%g %s", v, unit) }}
	for _, t := range x.Temps() {
		p.Points = append(p.Points, chart.Point{X: unix(t.At), Y: degrees(t.C)})
	}
	for _, s := range x.SetPoints() {
		p.Lines = append(p.Lines, chart.Line{Y: degrees(s.C), From: unix(s.From), To: unix(s.To), Label: "set " + x.Sys.Temp(s.C)})
	}
	return p
}

func levelHead(x *advise.Snapshot, g chart.Glyphs) string {
	head := "Level  " + g.Mark(chart.Solid) + " seen, or filled to"
	if x.About != nil {
		head += "; the curve is about how high since"
	}
	return head
}

// levelPlot is the level each time somebody looked and, from look to look, about
// how high it stood. The mark and the heater's low mark are always in it: how
// near the one is to the other is what is asked.
func levelPlot(x *advise.Snapshot) chart.Plot {
	one, unit := pour(x.Sys)
	p := chart.Plot{YFormat: func(v float64) string { return fmt.Sprintf("%g %s", v, unit) }}
	for _, l := range x.Looks() {
		p.Points = append(p.Points, chart.Point{X: unix(l.At), Y: float64(l.VolumeL / one)})
	}
	var about chart.Path
	for _, l := range x.LevelCourse(x.Life.Fill.At, x.Now) {
		about.X = append(about.X, float64(l.At.UnixNano())/float64(time.Second))
		about.Y = append(about.Y, float64(l.VolumeL/one))
	}
	p.Paths = []chart.Path{about}
	t := x.Bath.Tank
	p.Lines = []chart.Line{{Y: float64(t.VolumeL / one), Label: "the mark"}}
	if t.LowL > 0 {
		p.Lines = append(p.Lines, chart.Line{Y: float64(t.LowL / one), Label: "heater's low mark", Limit: true})
	}
	return p
}
