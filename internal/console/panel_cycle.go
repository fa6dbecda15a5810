package console

import (
	"fmt"
	"strconv"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/catalog"
	"bathside/internal/load"
)

// cyclePanel picks minutes, basket and lid for an item type.
type cyclePanel struct {
	t      *theme
	x      *advise.Snapshot
	cat    *catalog.Catalog
	at     int
	soil   int
	w, h   int
	folded bool
}

var soils = []load.Soil{load.Light, load.Normal, load.Heavy}

func (p *cyclePanel) setSnapshot(x *advise.Snapshot) { p.x = x }
func (p *cyclePanel) setSize(w, h int)               { p.w, p.h = w, h }
func (p *cyclePanel) title() string                  { return "Cycle" }

func (p *cyclePanel) bindings() []key.Binding {
	return []key.Binding{
		bind("enter", "log this wash", "enter"), keys.up, keys.down,
		bind("left", "less soil", "left"), bind("right", "more soil", "right"),
	}
}

func (p *cyclePanel) key(msg tea.KeyPressMsg) action {
	if p.cat == nil {
		return nil
	}
	switch {
	case key.Matches(msg, keys.up):
		p.at = max(0, p.at-1)
	case key.Matches(msg, keys.down):
		p.at = min(len(p.cat.Items)-1, p.at+1)
	case key.Matches(msg, keys.left):
		p.soil = max(0, p.soil-1)
	case key.Matches(msg, keys.right):
		p.soil = min(len(soils)-1, p.soil+1)
	case key.Matches(msg, keys.enter):
		return p.wash()
	}
	return nil
}

func (p *cyclePanel) list() list {
	l := list{at: p.at, mark: func(i int) { p.at = i }, y: 1}
	for _, item := range p.cat.Items {
		l.rows = append(l.rows, item.Name)
	}
	l.from = firstShown(p.at, len(l.rows), p.h)
	return l
}

// wash opens the form of a wash with the chosen item in it.
func (p *cyclePanel) wash() action {
	c, err := p.pick()
	if err != nil {
		return say{err.Error()}
	}
	return openForm{kind: "wash", preset: map[string]string{
		"item": c.Item.ID + "=1", "soil": string(c.Soil), "time": minutes(c.Minutes),
	}}
}

// freshTemp is how old a measurement may be and still count as measured.
const freshTemp = 15 * time.Minute

func (p *cyclePanel) measured() bool {
	return p.x.Temp != nil && p.x.Now.Sub(p.x.Temp.At) <= freshTemp
}

// pick is the answer for the bath as measured, or at its set point where that
// is too long ago.
func (p *cyclePanel) pick() (load.Cycle, error) {
	in := load.Conditions{Bath: p.x.Set(), Set: p.x.Set(), Units: p.x.Sys, PerTenC: p.x.State.Site.Lengthen()}
	if in.Guessed = !p.measured(); !in.Guessed {
		in.Bath = p.x.Temp.C
	}
	return load.Pick(p.cat.Items[p.at], soils[p.soil], in)
}

func (p *cyclePanel) view() []string {
	if p.x == nil || p.cat == nil || len(p.cat.Items) == 0 {
		return rows(nil, p.w, p.h)
	}
	if p.folded {
		return rows(p.fits(p.detail(p.w-2, true)), p.w, p.h)
	}
	list := 22
	return beside(2, rows(p.column(list), list, p.h), rows(p.fits(p.detail(p.w-list-2, false)), p.w-list-2, p.h))
}

// fits says in the last row where the lines are that there is no room for.
func (p *cyclePanel) fits(lines []string) []string {
	over := len(lines) - p.h
	if over <= 0 || p.h < 2 {
		return lines
	}
	return append(lines[:p.h-1], p.t.muted.Render(fmt.Sprintf("%d more lines: press 4, the load", over+1)))
}

func (p *cyclePanel) column(w int) []string {
	var lines []string
	first := firstShown(p.at, len(p.cat.Items), p.h)
	for i := first; i < len(p.cat.Items) && len(lines) < p.h; i++ {
		name := p.cat.Items[i].Name
		if i == p.at {
			lines = append(lines, p.t.mark("▸ ", "> ")+p.t.accent.Render(pad(name, w-2)))
			continue
		}
		lines = append(lines, "  "+name)
	}
	return lines
}

// detail is the answer for the chosen item: minutes, basket, lid, limit, and
// what to see to before it goes in.
func (p *cyclePanel) detail(w int, named bool) []string {
	c, err := p.pick()
	if err != nil {
		return wrap(err.Error(), w)
	}
	item := c.Item
	head := "soil  " + p.soilChoice()
	if named {
		head = p.t.mark("▸ ", "> ") + p.t.accent.Render(item.Name) + "  " + head
	}
	lines := []string{
		spread(head, p.t.bold.Render(minutes(c.Minutes)+" min"), w),
		p.t.muted.Render(fmt.Sprintf("%s basket · lid %s · limit %s, %s", item.Basket, item.Lid, item.Limit.Printed, item.Limit.Source)),
	}
	if tag := p.x.Bath.Tag; tag != nil {
		lines = append(lines, p.t.bad.Render("Nothing goes in: the bath is red-tagged. Wake a gear officer."))
	}
	for _, r := range c.Refusals {
		for _, l := range wrap(r.String(), w) {
			lines = append(lines, p.t.watch.Bold(false).Render(l))
		}
	}
	if !p.measured() {
		lines = append(lines, wrap("At "+p.x.Sys.Temp(p.x.Set())+", the set point: measure the bath before it starts (t).", w)...)
	} else {
		lines = append(lines, wrap(c.Say, w)...)
	}
	box := p.t.mark("▢ ", "[ ] ")
	for _, k := range item.Checks {
		lines = append(lines, pad(box+k.Say, w))
	}
	return append(lines, p.t.muted.Render("after: "+careSay(item)))
}

func (p *cyclePanel) soilChoice() string {
	s := ""
	for i, soil := range soils {
		if i == p.soil {
			s += p.t.accent.Render("[" + string(soil) + "]")
		} else {
			s += " " + string(soil) + " "
		}
	}
	return s
}

func careSay(item catalog.Item) string {
	s := ""
	for i, step := range item.Care {
		if i > 0 {
			s += ", "
		}
		s += step.ID
	}
	return s
}

func minutes(m float64) string { return strconv.FormatFloat(m, 'f', -1, 64) }
