package load

import (
	"math"

	"bathside/internal/catalog"
)

// slots is how many half slots of the bath the basket takes.
func (b Basket) slots() int { return b.Kind.Halves() }

// measured says whether things can be laid out in it.
func (b Basket) measured() bool { return b.Length > 0 && b.Width > 0 && b.Height > 0 }

// part is how much of the basket one item takes: by the station's own count,
// or else by its floor. It is infinite where the basket does not take it.
func (b Basket) part(item catalog.Item) float64 {
	if item.Basket != catalog.BasketEither && item.Basket != b.Kind || b.MaxMass > 0 && item.Mass > b.MaxMass {
		return math.Inf(1)
	}
	if n, counted := b.Holds[item.ID]; counted {
		return 1 / float64(n) // infinite for none
	}
	if !b.measured() {
		return math.Inf(1)
	}
	l, ok := b.lie(item)
	if !ok {
		return math.Inf(1)
	}
	part := float64(l.Length*l.Width) / float64(b.floorArea())
	if b.Kind == catalog.BasketDeep && !l.tall {
		return part / 2 // one of two layers
	}
	return part
}

// holds says whether one basket holds these pieces: their parts come to no
// more than the whole, no lid is in the way, and where the station has not
// counted one of them, all are laid out. Not sure is a layout that was not
// found.
func (b Basket) holds(pieces []planPiece, in counts) (holds, sure bool) {
	var parts, mass float64
	var lid, open, uncounted bool
	for i, n := range in {
		if n == 0 {
			continue
		}
		item := pieces[i].Item
		parts += float64(n) * b.part(item)
		mass += float64(n) * float64(item.Mass)
		lid, open = lid || item.Lid == catalog.LidMust, open || item.Lid == catalog.LidNone
		_, counted := b.Holds[item.ID]
		uncounted = uncounted || !counted
	}
	if parts > 1+hair || lid && open || b.MaxMass > 0 && mass > float64(b.MaxMass)*(1+hair) {
		return false, true
	}
	if !uncounted {
		return true, true
	}
	_, ok := b.layOut(pieces, in)
	return ok, ok
}

// layOut lays the pieces into the basket by their sizes.
func (b Basket) layOut(pieces []planPiece, in counts) ([][]Spot, bool) {
	if !b.measured() {
		return nil, false
	}
	var things []laid
	for i, n := range in {
		for range n {
			l, ok := b.lie(pieces[i].Item)
			if !ok {
				return nil, false
			}
			things = append(things, l)
		}
	}
	return b.layers(things)
}

// loaded is a basket with its lines, and drawn where it can be.
func (p *planner) loaded(s stowed) LoadedBasket {
	out := LoadedBasket{Basket: s.of}
	for i, n := range s.in {
		if n > 0 {
			out.Lines = append(out.Lines, Line{p.pieces[i].at, int(n)})
			out.Lid = out.Lid || p.pieces[i].Item.Lid == catalog.LidMust
		}
	}
	out.Layers, _ = p.Baskets[s.of].layOut(p.pieces, s.in)
	return out
}
