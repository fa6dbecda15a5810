package console

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// gatesPanel lists what stands in the way of the load, the marked one whole:
// what is wrong, what to do, whom to wake.
type gatesPanel struct {
	t      *theme
	making *making
	at     int
	w, h   int
}

// toChecks leads to the checks.
type toChecks struct{}

func (p *gatesPanel) setSize(w, h int)             { p.w, p.h = w, h }
func (p *gatesPanel) setSnapshot(*advise.Snapshot) {} // it shows the load, which has it

// keep leaves the mark on a gate that is there.
func (p *gatesPanel) keep() { p.at = max(0, min(p.at, len(p.making.is.Gates)-1)) }

func (p *gatesPanel) title() string {
	switch n := len(p.making.is.Gates); {
	case p.making.err != nil:
		return "In the way"
	case n > 0:
		return fmt.Sprintf("In the way: %d", n)
	}
	return "Nothing in the way"
}

func (p *gatesPanel) bindings() []key.Binding {
	return []key.Binding{washKeys.mend, keys.up, keys.down}
}

func (p *gatesPanel) key(msg tea.KeyPressMsg) action {
	gates := p.making.is.Gates
	switch at, ok := moved(msg, p.at, len(gates), p.h); {
	case ok:
		p.at = max(0, at)
	case key.Matches(msg, washKeys.mend) && len(gates) > 0:
		return p.mend(gates[p.at])
	case key.Matches(msg, washKeys.mend) && p.making.err == nil:
		return startIt{}
	}
	return nil
}

// mends is the form that takes a gate out of the way.
var mends = map[string]bath.Kind{
	"intake": "intake", "blood": "intake", "old-temperature": "temp", "too-hot": "temp", "over-band": "temp", "too-cool": "temp",
	"no-soap": "dose", "bubbles": "degas", "low": "water", "paper": "procedure",
}

func (p *gatesPanel) mend(g bath.Gate) action {
	switch kind, ok := mends[g.ID]; {
	case g.ID == "checks" || g.ID == "lid":
		return toChecks{}
	case g.ID == "blood":
		return openForm{kind: kind, preset: map[string]string{"else": bath.ElseBlood, "rinsed": "yes"}}
	case g.ID == "paper":
		return openForm{kind: kind, preset: map[string]string{"item": g.Item}}
	case ok:
		return openForm{kind: kind}
	}
	return say{g.Say()}
}

// view is the gates, a row each but for the marked one.
func (p *gatesPanel) view() []string {
	gates := p.making.is.Gates
	switch {
	case p.making.err != nil:
		return rows(indented(sentence(p.making.err)+".", p.w), p.w, p.h)
	case len(gates) == 0 && p.making.empty():
		return rows(indented("Nothing stands in the way of a load.", p.w), p.w, p.h)
	case len(gates) == 0:
		return rows([]string{" " + p.t.ok.Render(p.t.mark("✓ ", "+ ")+"Ready: s starts it")}, p.w, p.h)
	}
	var lines []string
	first := firstShown(p.at, len(gates), max(1, p.h-len(p.whole(gates[p.at]))+1))
	for i := first; i < len(gates); i++ {
		if i == p.at {
			lines = append(lines, p.whole(gates[i])...)
			continue
		}
		lines = append(lines, p.short(gates[i]))
	}
	return rows(lines, p.w, p.h)
}

// short is a gate in one row.
func (p *gatesPanel) short(g bath.Gate) string {
	soft := ""
	if g.Soft {
		soft = " let through?"
	}
	return spread(" "+p.t.muted.Render(p.t.mark("✗ ", "X "))+fit(p.w-4-len(soft), capital(g.Wrong)), p.t.muted.Render(soft)+" ", p.w)
}

// whole is the marked gate in as many rows as it takes.
func (p *gatesPanel) whole(g bath.Gate) []string {
	var lines []string
	text := g.Say()
	if g.Soft {
		text += " Or let through: a gear officer starts it with a reason."
	}
	for i, l := range wrap(text, p.w-4) {
		mark := "   "
		if i == 0 {
			mark = " " + p.t.mark("▸ ", "> ")
		}
		lines = append(lines, mark+p.t.watch.Bold(false).Render(l))
	}
	return lines[:min(len(lines), max(1, p.h))]
}

func (p *gatesPanel) list() list {
	l := list{at: p.at, mark: func(i int) { p.at = i }}
	for _, g := range p.making.is.Gates {
		l.rows = append(l.rows, g.Say())
	}
	return l
}
