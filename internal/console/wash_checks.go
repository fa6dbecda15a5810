package console

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
)

// checksPanel is what is looked at before the load goes in, ticked one by one.
type checksPanel struct {
	t      *theme
	making *making
	at     int
	w, h   int
}

func (p *checksPanel) setSize(w, h int)             { p.w, p.h = w, h }
func (p *checksPanel) setSnapshot(*advise.Snapshot) {} // it shows the load, which has it

// keep leaves the mark on a check that is there.
func (p *checksPanel) keep() { p.at = max(0, min(p.at, len(p.making.checks())-1)) }

func (p *checksPanel) title() string {
	if all := len(p.making.checks()); all > 0 {
		return fmt.Sprintf("Before it goes in: %d of %d ticked", all-p.making.unticked(), all)
	}
	return "Before it goes in"
}

func (p *checksPanel) bindings() []key.Binding {
	return []key.Binding{washKeys.tick, keys.up, keys.down}
}

// key ticks the marked check and goes on to the next, or moves.
func (p *checksPanel) key(msg tea.KeyPressMsg) action {
	all := p.making.checks()
	if len(all) == 0 {
		return nil
	}
	switch at, ok := moved(msg, p.at, len(all), p.h); {
	case ok:
		p.at = at
	case key.Matches(msg, washKeys.tick):
		p.making.toggle(all[p.at].tick)
		if p.making.ticks[all[p.at].tick] {
			p.at = min(p.at+1, len(all)-1)
		}
	case key.Matches(msg, keys.enter):
		return startIt{}
	}
	return nil
}

func (p *checksPanel) view() []string {
	all := p.making.checks()
	if len(all) == 0 {
		return rows(indented("Its checks stand here once something is in the load.", p.w), p.w, p.h)
	}
	var lines []string
	first := firstShown(p.at, len(all), max(1, p.h-len(p.line(all, p.at))+1))
	for i := first; i < len(all); i++ {
		lines = append(lines, p.line(all, i)...)
	}
	return rows(lines, p.w, p.h)
}

// line is one check; the marked one says why, and what stays out without it.
func (p *checksPanel) line(all []toTick, i int) []string {
	c := all[i]
	box := p.t.mark("▢ ", "[ ] ")
	if p.making.ticks[c.tick] {
		box = p.t.mark("✓ ", "[x] ")
	}
	text := c.check.Say
	if c.name != "" && (i == 0 || all[i-1].name != c.name) {
		text = c.name + ": " + text
	}
	if i != p.at {
		return []string{"   " + box + fit(p.w-8, text)}
	}
	var lines []string
	for j, l := range wrap(text, p.w-8) {
		head := "       "
		if j == 0 {
			head = " " + p.t.mark("▸ ", "> ") + box
		}
		lines = append(lines, head+p.t.accent.Render(l))
	}
	why := c.check.Why
	if c.check.Instead != "" {
		why = "if not: " + c.check.Instead
	}
	for _, l := range wrap(why, p.w-8) {
		lines = append(lines, "       "+p.t.muted.Render(l))
	}
	return lines[:min(len(lines), max(1, p.h))]
}

func (p *checksPanel) list() list {
	l := list{at: p.at, mark: func(i int) { p.at = i }}
	for _, c := range p.making.checks() {
		l.rows = append(l.rows, c.name+": "+c.check.Say)
	}
	return l
}
