package load

import (
	"fmt"
	"math"
	"slices"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// planPiece is a batch on its way into the search.
type planPiece struct {
	Batch
	at      int     // index of the batch in the request
	wanted  float64 // minutes
	longest float64
}

// planner turns a request into a search and its fills into washes.
type planner struct {
	Request
	pieces []planPiece // as the search sorts them
	tank   *tank
}

// newPlanner sorts out what goes in and notes in the plan what does not.
func newPlanner(r Request, plan *WashPlan) (*planner, error) {
	p := &planner{Request: r}
	for at, b := range r.Batches {
		cycle, err := Pick(b.Item, b.Soil, r.Bath)
		if err != nil {
			return nil, err
		}
		why := r.whyNot(b.Item)
		if !cycle.Allowed {
			why = cycle.Refusals[0].String()
		}
		switch {
		case b.N == 0:
		case why != "":
			plan.KeptOut = append(plan.KeptOut, KeptOut{at, why})
		default:
			p.pieces = append(p.pieces, planPiece{Batch: b, at: at, wanted: cycle.Minutes, longest: cycle.Longest})
		}
	}
	slices.SortStableFunc(p.pieces, func(a, b planPiece) int {
		return longestThenLargest(a.wanted, p.share(a.Item), b.wanted, p.share(b.Item))
	})
	return p, nil
}

// whyNot says why an item goes into no wash of this station, even alone.
func (r Request) whyNot(item catalog.Item) string {
	sorry := func(wrong, do string) string {
		return fmt.Sprintf("Not in the plan: %s. Do this: %s.", wrong, do)
	}
	text := r.Bath.Units.Text
	switch {
	case item.Mass > r.mostMass():
		return sorry(fmt.Sprintf("one of the %s has %s, more than half the water's %s", item.Plural, text(item.Mass), text(r.mostMass())), "wash it by hand")
	case r.Tank.Freeboard > 0 && item.Displaces > r.Tank.Freeboard:
		return sorry(fmt.Sprintf("one of the %s pushes up %s, the tank has %s to its rim", item.Plural, text(item.Displaces), text(r.Tank.Freeboard)), "wash it by hand")
	case math.IsInf(r.share(item), 1):
		return sorry(fmt.Sprintf("no basket that goes in the bath is known to hold %s", item.Plural), "write how many of them a basket holds")
	}
	return ""
}

// mostMass is the most in one wash: half the mass of the water, which at the
// hottest weighs 0.98 kg a litre. Half is common practice, no source.
func (r Request) mostMass() units.Mass { return units.Mass(0.5 * 0.98 * float64(r.Tank.Water)) }

// clash says which pieces may not share a wash: one would stay in beyond its
// longest minutes, or heavy soil goes alone.
func (p *planner) clash() [][]bool {
	all := make([][]bool, len(p.pieces))
	for i, a := range p.pieces {
		all[i] = make([]bool, len(p.pieces))
		for j, b := range p.pieces {
			all[i][j] = a.wanted > b.longest || b.wanted > a.longest ||
				p.HeavyAlone && (a.Soil == Heavy) != (b.Soil == Heavy)
		}
	}
	return all
}

func (p *planner) search() *search {
	pieces := make([]piece, len(p.pieces))
	for i, b := range p.pieces {
		pieces[i] = piece{time: b.wanted, n: b.N, share: p.share(b.Item), first: b.Item.Basket == catalog.BasketDeep}
	}
	t := newTank(tank{slots: p.Tank.HalfSlots, most: p.Tank.most(), makes: p.makes()}, pieces)
	t.holds = func(of int, in counts) bool {
		holds, sure := p.Baskets[of].holds(p.pieces, in)
		t.doubt = t.doubt || !holds && !sure
		return holds
	}
	p.tank = t
	s := newSearch(pieces, p.resources(), p.clash(), t, p.Stop)
	s.bounds.apart = p.apart(s)
	return s
}

// most is how many baskets go in at once.
func (t Tank) most() int {
	if t.MaxBaskets > 0 {
		return t.MaxBaskets
	}
	return t.HalfSlots
}

func (p *planner) makes() []basketMake {
	makes := make([]basketMake, len(p.Baskets))
	for i, b := range p.Baskets {
		makes[i] = basketMake{slots: b.slots(), count: b.Count}
	}
	return makes
}

// wash puts a fill into words.
func (p *planner) wash(f counts) Wash {
	w := Wash{Longest: math.Inf(1), Dirtiest: Light, Limit: catalog.Limit{At: units.Temperature(math.Inf(1))}}
	for i, n := range f {
		if n > 0 {
			w.count(p.pieces[i], int(n))
		}
	}
	baskets, _ := p.tank.stow(f)
	for _, b := range baskets {
		w.Baskets = append(w.Baskets, p.loaded(b))
	}
	return w
}

func (w *Wash) count(piece planPiece, n int) {
	w.Minutes = max(w.Minutes, piece.wanted)
	w.Longest = min(w.Longest, piece.longest)
	w.Mass += units.Mass(n) * piece.Item.Mass
	w.Displaces += units.Volume(n) * piece.Item.Displaces
	if piece.Soil.rank() > w.Dirtiest.rank() {
		w.Dirtiest = piece.Soil
	}
	if piece.Item.Limit.Hottest() < w.Limit.Hottest() {
		w.Limit = piece.Item.Limit
	}
}
