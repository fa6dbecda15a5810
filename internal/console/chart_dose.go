package console

import (
	"fmt"

	"bathside/internal/chart"
	"bathside/internal/units"
)

// curve is what the bath would likely read against soap added, from none to a
// first dose.
type curve struct{ soap, low, mid, high []float64 }

// A chart of the curve is drawn between these heights, its heading among them.
const leastChart, mostChart = 7, 17

// chart is the curve under a heading, as high as h allows; nothing where that
// is too low to be read.
func (p *dosePanel) chart(w, h int) []string {
	if !p.shown || h < leastChart {
		return nil
	}
	_, unit := pour(p.x.Sys)
	out := []string{p.t.muted.Render(fmt.Sprintf(" pH at %s by %s of soap added", p.x.Sys.Temp(p.x.Soap.At()), unit))}
	return append(out, p.t.plot(p.plot(), w, min(h, mostChart)-1)...)
}

func (p *dosePanel) plot() chart.Plot {
	if p.curve == nil {
		p.curve = p.reckon()
	}
	c, first, limit := p.curve, float64(p.x.Soap.Target), float64(p.x.Soap.Target)-p.x.PH.Limit
	unit, _ := pour(p.x.Sys)
	return chart.Plot{
		Glyphs: p.t.glyphs, X1: float64(p.full() / unit), YFormat: func(v float64) string { return fmt.Sprintf("%.1f", v) },
		Bands: []chart.Band{{X: c.soap, Lo: c.low, Hi: c.high}},
		Paths: []chart.Path{{X: c.soap, Y: c.mid}},
		Lines: []chart.Line{
			{Y: first, Label: fmt.Sprintf("first %.2f", first)},
			{Y: limit, Label: fmt.Sprintf("limit %.2f", limit), Limit: true},
		},
		Events: []chart.Event{{X: float64(p.doseL / unit), Mark: chart.Dose, Label: p.x.Sys.Volume(p.doseL)}},
	}
}

// reckon asks for every second step of the slider: half a millisecond each.
func (p *dosePanel) reckon() *curve {
	c := new(curve)
	unit, _ := pour(p.x.Sys)
	for i := 0; i <= steps; i += 2 {
		dose := p.full() * units.Volume(i) / steps
		r, err := p.x.Soap.After(dose)
		if err != nil {
			continue
		}
		c.soap = append(c.soap, float64(dose/unit))
		c.low, c.mid, c.high = append(c.low, float64(r.Low)), append(c.mid, float64(r.Mid)), append(c.high, float64(r.High))
	}
	return c
}

// pour is the unit that soap is counted in on an axis, and its name.
func pour(sys units.System) (units.Volume, string) {
	if sys == units.SI {
		return 1, "L"
	}
	return units.Gallons(1), "gal"
}
