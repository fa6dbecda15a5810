package console

import "fmt"

// sum is soil, minutes, mass, water pushed up, and heat, a row each.
func (p *loadPanel) sum() []string {
	l := p.making.is
	if p.night {
		return []string{" " + p.soilChoice()}
	}
	return []string{
		" " + p.soilChoice(),
		p.figure("for", p.minutes(), l.Apart != ""),
		p.figure("mass", p.mass(), l.MostMass > 0 && l.Mass > l.MostMass),
		p.figure("up", p.pushed(), l.Room > 0 && l.Up > l.Room),
		p.figure("heat", p.heat(), l.LimitOf != "" && l.Hottest > l.Limit.Hottest()),
	}
}

// figure is one row of the sum; one that is not right says so by its mark.
func (p *loadPanel) figure(name, text string, wrong bool) string {
	if wrong {
		text = p.t.watch.Render(p.t.mark("▲ ", "! ") + text)
	}
	return pad(" "+p.t.muted.Render(pad(name, 5))+text, p.w)
}

// fits is the longest of the texts that goes in a row of the sum, with cells
// to spare for a mark.
func (p *loadPanel) fits(spare int, texts ...string) string { return fit(p.w-6-spare, texts...) }

func (p *loadPanel) soilChoice() string {
	s := p.t.muted.Render(pad("soil", 4))
	for i, soil := range soils {
		if i == p.making.soil {
			s += p.t.accent.Render("[" + string(soil) + "]")
		} else {
			s += " " + string(soil) + " "
		}
	}
	return s
}

func (p *loadPanel) minutes() string {
	l := p.making.is
	switch {
	case p.making.empty():
		return "nothing yet: choose, then + "
	case l.Apart != "":
		return p.fits(2, l.Apart, fmt.Sprintf("two loads: %g min wanted, %g at most", l.Wanted, l.Longest), fmt.Sprintf("two loads: %g min, %g at most", l.Wanted, l.Longest))
	}
	short := fmt.Sprintf("%s min, %s at most", minutes(l.Minutes), minutes(l.Longest))
	return p.fits(0, short+" for "+l.Shortest, short)
}

func (p *loadPanel) mass() string {
	l, sys := p.making.is, p.making.x.Sys
	if l.MostMass == 0 {
		return sys.Text(l.Mass)
	}
	short := fmt.Sprintf("%s of %s", sys.Text(l.Mass), sys.Text(l.MostMass))
	return p.fits(2, short+", half the water's", short)
}

func (p *loadPanel) pushed() string {
	l, sys := p.making.is, p.making.x.Sys
	if l.Room == 0 {
		return p.fits(0, sys.Text(l.Up)+", room to the rim not on file", sys.Text(l.Up)+", room not on file")
	}
	short := fmt.Sprintf("%s of %s", sys.Text(l.Up), sys.Text(l.Room))
	return p.fits(2, short+" of room to the rim", short+" to the rim", short)
}

func (p *loadPanel) heat() string {
	l, sys := p.making.is, p.making.x.Sys
	hot := "not measured, set " + sys.Temp(l.Hottest)
	if l.Measured {
		hot = sys.Temp(l.Hottest) + " at the hottest"
	}
	if l.LimitOf == "" {
		return hot
	}
	limit := "; limit " + l.Limit.Printed
	return p.fits(2, hot+limit+", "+l.LimitOf, hot+limit, sys.Temp(l.Hottest)+limit)
}
