package console

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/catalog"
	"bathside/internal/load"
)

// basketsPanel shows the load in the station's baskets: from above and to
// scale where a basket is measured, else as counts.
type basketsPanel struct {
	t      *theme
	making *making
	at     int // the basket that is shown first
	w, h   int
}

func (p *basketsPanel) setSize(w, h int)             { p.w, p.h = w, h }
func (p *basketsPanel) setSnapshot(*advise.Snapshot) {} // it shows the load, which has it
func (p *basketsPanel) title() string                { return "In the baskets" }

func (p *basketsPanel) bindings() []key.Binding {
	return []key.Binding{bind("up", "basket before", "up"), bind("down", "next basket", "down")}
}

func (p *basketsPanel) key(msg tea.KeyPressMsg) action {
	if at, ok := moved(msg, p.at, len(p.loaded()), 1); ok {
		p.at = max(0, at)
	}
	return nil
}

// loaded is the baskets of the first wash that the load makes.
func (p *basketsPanel) loaded() []load.LoadedBasket {
	if all := p.making.stowed.WashPlan.Washes; len(all) > 0 {
		return all[0].Baskets
	}
	return nil
}

func (p *basketsPanel) view() []string {
	m := p.making
	switch {
	case m.stowErr != nil:
		return rows(indented(sentence(m.stowErr)+".", p.w), p.w, p.h)
	case m.empty():
		return rows(p.what(), p.w, p.h)
	}
	lines := p.notes()
	baskets := p.loaded()
	for i := min(p.at, max(0, len(baskets)-1)); i < len(baskets) && len(lines) < p.h; i++ {
		lines = append(lines, p.basket(baskets[i], p.h-len(lines))...)
	}
	return rows(lines, p.w, p.h)
}

// what is the baskets that there are, and what each holds.
func (p *basketsPanel) what() []string {
	var lines []string
	for _, b := range p.making.x.Bath.Baskets {
		var holds []string
		for _, l := range b.Holds {
			holds = append(holds, fmt.Sprintf("%d %s", l.Count, p.plural(l.Item, l.Count)))
		}
		say := fmt.Sprintf("%s, %d in the bath at once", b.Name, b.Together())
		if len(holds) > 0 {
			say += ": " + strings.Join(holds, " or ")
		}
		lines = append(lines, indented(say, p.w)...)
	}
	return lines
}

func (p *basketsPanel) plural(id string, n int) string {
	item, err := p.making.cat.Item(id)
	if err != nil {
		return id
	}
	return itemSay(item, n)
}

// itemSay names so many of an item.
func itemSay(item catalog.Item, n int) string {
	if n == 1 {
		return strings.ToLower(item.Name)
	}
	return item.Plural
}

// notes say what does not go in at once, or not at all.
func (p *basketsPanel) notes() []string {
	var lines []string
	add := func(s string) {
		for _, l := range indented(s, p.w) {
			lines = append(lines, p.t.watch.Bold(false).Render(l))
		}
	}
	s := p.making.stowed
	if n := len(s.WashPlan.Washes); n > 1 {
		add(fmt.Sprintf("Not all at once: %d washes, the first is here. v plans them.", n))
	}
	for _, k := range s.KeptOut {
		add(k.Why)
	}
	return lines[:min(len(lines), max(1, p.h/2))]
}

// basket is one basket in h rows at the most.
func (p *basketsPanel) basket(b load.LoadedBasket, h int) []string {
	r := p.making.stowed.Request
	is := r.Baskets[b.Basket]
	head := " " + p.t.bold.Render(is.Name) + p.t.muted.Render(", "+lidSay(r, b)+": ") + countsSay(r, b)
	if len(b.Layers) > 0 && h >= 4 {
		if drawn := p.drawn(is, b, h-1); drawn != nil {
			return append([]string{head}, drawn...)
		}
	}
	lines := indented(fmt.Sprintf("%s, %s: %s", is.Name, lidSay(r, b), countsSay(r, b)), p.w)
	return lines[:min(len(lines), h)]
}

func lidSay(r load.Request, b load.LoadedBasket) string {
	for _, l := range b.Lines {
		if r.Batches[l.Batch].Item.Lid == catalog.LidNone {
			return "no lid"
		}
	}
	if b.Lid {
		return "lid clipped"
	}
	return "lid optional"
}

// countsSay is what is in a basket: "6 masks, 1 helmet shell".
func countsSay(r load.Request, b load.LoadedBasket) string {
	var all []string
	for _, l := range b.Lines {
		all = append(all, fmt.Sprintf("%d %s", l.N, itemSay(r.Batches[l.Batch].Item, l.N)))
	}
	return strings.Join(all, ", ")
}

// drawn is its floors side by side, or one where the upper one has nothing of
// its own; nil where there is no room to draw them.
func (p *basketsPanel) drawn(is load.Basket, b load.LoadedBasket, h int) []string {
	layers, names := b.Layers, pieceNames(p.making.stowed.Request, b)
	if top := layers[len(layers)-1]; len(top) == 0 || slices.Equal(layers[0], top) {
		layers = layers[:1]
	}
	n := len(layers)
	w := (p.w - 2 - 2*(n-1)) / n
	var floors [][]string
	for i, spots := range layers {
		if i > 0 {
			names = tallNames(names, layers[0])
		}
		f := p.t.floorPlan(is, spots, names, w, h-min(1, n-1))
		if f == nil {
			return nil
		}
		if n > 1 {
			f = append([]string{pad(p.t.muted.Render([]string{"below", "above"}[i]), w)}, f...)
		}
		floors = append(floors, rows(f, w, len(f)))
	}
	var lines []string
	for _, l := range beside(2, floors...) {
		lines = append(lines, " "+l)
	}
	return lines
}

// tallNames are names for an upper floor: what stands on the lower one comes
// through, and is no further piece.
func tallNames(names []string, below []load.Spot) []string {
	names = slices.Clone(names)
	for _, s := range below {
		names[s.Of] = "tall"
	}
	return names
}

// pieceNames names the pieces as the spots of a basket count them.
func pieceNames(r load.Request, b load.LoadedBasket) (names []string) {
	for _, l := range b.Lines {
		for range l.N {
			names = append(names, r.Batches[l.Batch].Item.Name)
		}
	}
	return names
}
