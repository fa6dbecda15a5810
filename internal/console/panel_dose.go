package console

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/units"
)

// dosePanel is the top-up side of Decide: a slider of soap, and what so much
// of it would do.
type dosePanel struct {
	t     *theme
	x     *advise.Snapshot
	doseL units.Volume
	moved bool          // by hand: a new snapshot leaves it where it is
	shown bool          // there are figures to be shown
	topUp *advise.TopUp // of doseL; nil for none
	curve *curve        // cache, until the snapshot changes
}

// steps is how many steps of the slider make a first dose.
const steps = 20

// set takes a snapshot, with the top-up that it advises; nil shows no figures.
func (p *dosePanel) set(x *advise.Snapshot, advised *advise.TopUp) {
	p.x, p.shown, p.curve = x, advised != nil, nil
	if advised != nil && !p.moved {
		p.doseL = advised.DoseL
	}
	p.topUp = nil
	if p.shown {
		p.topUp = x.TopUp(p.doseL)
	}
}

// full is where the slider ends: as much as the first dose of the fill, or what
// the label allows.
func (p *dosePanel) full() units.Volume { return min(p.x.Life.FirstDose(), p.x.Room()) }

func (p *dosePanel) key(msg tea.KeyPressMsg) {
	if !p.shown {
		return
	}
	to := p.doseL
	switch {
	case key.Matches(msg, keys.left):
		to -= p.full() / steps
	case key.Matches(msg, keys.right):
		to += p.full() / steps
	case key.Matches(msg, keys.home):
		to = 0
	case key.Matches(msg, keys.end):
		to = p.full()
	default:
		return
	}
	p.doseL, p.moved = max(0, min(to, p.full())), true
	p.topUp = p.x.TopUp(p.doseL)
}

// figures are the slider and what so much soap would do, a line each.
func (p *dosePanel) figures(w int) []string {
	if !p.shown {
		return indented(p.none(), w)
	}
	out := []string{p.slider(w)}
	if p.topUp == nil {
		return append(out, figure("", "nothing is added"))
	}
	u := p.topUp
	out = append(out, figures(u.GainDays, u.Hours, u.Cost, u.PerDay)...)
	return append(out, figure("would read", p.reads()), figure(p.target()+" again", u.Reaches.String()))
}

// short is the same in three lines.
func (p *dosePanel) short(w int) []string {
	if !p.shown {
		return indented(p.none(), w)
	}
	out := []string{p.slider(w)}
	if p.topUp == nil {
		return append(out, " nothing is added", "")
	}
	u := p.topUp
	return append(out,
		pad(" would read "+p.reads()+" · "+p.target()+" again: "+u.Reaches.String(), w),
		pad(" "+inShort(u.GainDays, u.Hours, u.Cost), w))
}

// none says why there are no figures.
func (p *dosePanel) none() string {
	switch {
	case p.x.Bath.Tag != nil && p.x.Bath.Tag.Kind == bath.HoldContaminated:
		return "No top-up: more soap mends no contaminated bath."
	case p.x.PH.State == advise.PHOK:
		return "Reckoned once the bath is getting close."
	}
	return sentence(advise.ErrNoOutlook) + "."
}

// reads is what the bath would likely read, at the first reading's temperature.
func (p *dosePanel) reads() string {
	r := p.topUp.PH
	return fmt.Sprintf("%.2f to %.2f at %s", float64(r.Low), float64(r.High), p.x.Sys.Temp(p.x.Soap.At()))
}

// target is the pH to come back to.
func (p *dosePanel) target() string { return fmt.Sprintf("%.2f", float64(p.x.Soap.Target)) }

func (p *dosePanel) slider(w int) string {
	amount := p.x.Amount(p.doseL)
	n := max(6, w-14-2-ansi.StringWidth(amount)-1)
	at := 0
	if full := p.full(); full > 0 { // a fill with all the soap that its label allows has none to slide
		at = int(float64(p.doseL/full)*float64(n-1) + 0.5)
	}
	bar := p.t.accent.Render(strings.Repeat(p.t.ruleFocus, at)+p.t.glyphs.Mark(chart.Solid)) + p.t.muted.Render(strings.Repeat(p.t.rule, n-1-at))
	return pad(figure("soap", bar+"  "+amount), w)
}
