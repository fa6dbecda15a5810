package console

import (
	"fmt"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// meterPage is the foot of Readings that lists the meters' calibrations and
// dips, newest first, with what each says.
type meterPage struct {
	t  *theme
	x  *advise.Snapshot
	at int // from the newest
}

func (p *meterPage) checks() []advise.MeterCheck {
	if p.x == nil {
		return nil
	}
	return p.x.Checks()
}

func (p *meterPage) marked() (advise.MeterCheck, bool) {
	all := p.checks()
	if len(all) == 0 {
		return advise.MeterCheck{}, false
	}
	return all[len(all)-1-min(p.at, len(all)-1)], true
}

func (p *meterPage) view(w, h int) []string {
	lines := []string{p.t.muted.Render("   " + pad("when", p.x.Times.DayClockW()+2) + "  meter   what it says")}
	all := p.checks()
	if len(all) == 0 {
		return rows(append(lines, "   No calibration yet: press a for one dip or two buffers."), w, h)
	}
	noteH := min(3, max(0, h-4))
	first := firstShown(p.at, len(all), h-1-noteH)
	for i := first; i < len(all) && len(lines) < h-noteH; i++ {
		lines = append(lines, p.row(all[len(all)-1-i], i == p.at, w))
	}
	return rows(append(rows(lines, w, h-noteH), p.notes(w, noteH)...), w, h)
}

func (p *meterPage) row(c advise.MeterCheck, marked bool, w int) string {
	mark, sign := "   ", p.t.mark("✓", "+")
	if !c.OK {
		sign = p.t.mark("✗", "X")
	}
	if marked {
		mark = p.t.mark(" ▸ ", " > ")
	}
	when := pad(p.x.Times.DayClock(p.x.Local(c.At)), p.x.Times.DayClockW()+2)
	line := fmt.Sprintf("%s%s  %s  %s %s", mark, when, pad(plain.Line(c.Is.Meter), 6), sign, c.Say)
	if line = pad(line, w-1); marked {
		return p.t.accent.Render(line)
	}
	return line
}

// notes is the marked one whole, with what else there is to say of it.
func (p *meterPage) notes(w, h int) []string {
	c, ok := p.marked()
	if !ok {
		return nil
	}
	var out []string
	for _, n := range append([]string{c.Say}, c.Notes...) {
		for _, l := range wrap(n, w-4) {
			out = append(out, "   "+p.t.muted.Render(l))
		}
	}
	return out[:min(len(out), h)]
}
