package console

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/catalog"
)

// loadPanel counts what goes in, and sums it up.
type loadPanel struct {
	t      *theme
	making *making
	at     int
	w, h   int
	alone  bool // no other part is in sight
	night  bool // the counts are those of a plan: no sum of one load
}

type (
	// loadChanged says that the load is another one.
	loadChanged struct{}
	// startIt asks for the form of the start.
	startIt struct{}
)

func (p *loadPanel) setSize(w, h int)             { p.w, p.h = w, h }
func (p *loadPanel) setSnapshot(*advise.Snapshot) {} // it shows the load, which has it

func (p *loadPanel) title() string {
	switch n := len(p.making.is.Gates); {
	case p.night:
		return "All that came back"
	case !p.alone || p.making.empty():
	case p.making.err != nil || n == 1:
		return "The load: 1 thing in the way"
	case n == 0:
		return "The load: nothing in the way"
	default:
		return fmt.Sprintf("The load: %d things in the way", n)
	}
	return "The load"
}

func (p *loadPanel) bindings() []key.Binding {
	return []key.Binding{
		keys.up, keys.down, bind("- +", "less, more", "right"), washKeys.soil, washKeys.empty,
	}
}

func (p *loadPanel) key(msg tea.KeyPressMsg) action {
	m := p.making
	if len(m.n) == 0 {
		return nil
	}
	if at, ok := moved(msg, p.at, len(m.n), p.h-len(p.sum())); ok {
		p.at = at
		return nil
	}
	switch {
	case key.Matches(msg, washKeys.more):
		m.change(p.at, 1)
	case key.Matches(msg, washKeys.less):
		m.change(p.at, -1)
	case key.Matches(msg, washKeys.soil):
		m.nextSoil()
	case key.Matches(msg, washKeys.empty):
		m.clear()
	case key.Matches(msg, keys.enter):
		return startIt{}
	default:
		return nil
	}
	return loadChanged{}
}

func (p *loadPanel) view() []string {
	sum := p.sum()
	h := max(1, min(len(p.making.n), p.h-len(sum)))
	var lines []string
	first := firstShown(p.at, len(p.making.n), h)
	for i := first; i < len(p.making.n) && len(lines) < h; i++ {
		lines = append(lines, p.row(i))
	}
	return rows(append(rows(lines, p.w, h), sum...), p.w, p.h)
}

func (p *loadPanel) row(i int) string {
	item := p.making.cat.Items[i]
	mark, name, count := "  ", pad(item.Name, 18), p.t.muted.Render("  –")
	if p.t.ascii {
		count = p.t.muted.Render("  -")
	}
	if n := p.making.n[i]; n > 0 {
		count = p.t.bold.Render(fmt.Sprintf("%3d", n))
	}
	if i == p.at {
		mark, name = p.t.mark("▸ ", "> "), p.t.accent.Render(name)
	}
	where := item.Limit.Printed
	if p.w >= 45 {
		where = basketSay(item) + " · " + where
	}
	return spread(" "+mark+name+count, p.t.muted.Render(where+" "), p.w)
}

// basketSay is where an item goes: "deep, lid".
func basketSay(item catalog.Item) string {
	s := string(item.Basket)
	switch item.Lid {
	case catalog.LidMust:
		return s + ", lid"
	case catalog.LidNone:
		return s + ", no lid"
	}
	return s
}

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
