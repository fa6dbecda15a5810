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
	if n := p.making.waits(); n > 0 {
		return fmt.Sprintf("The load · %d of the plan wait", n)
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

func (p *loadPanel) list() list {
	l := list{at: p.at, mark: func(i int) { p.at = i }}
	for i, n := range p.making.n {
		l.rows = append(l.rows, fmt.Sprintf("%s: %d", p.making.cat.Items[i].Name, n))
	}
	return l
}
