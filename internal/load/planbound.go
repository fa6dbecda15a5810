package load

import (
	"math"
	"slices"

	"bathside/internal/catalog"
)

// share is the part of a wash that one item takes; infinite where none takes
// it.
func (r Request) share(item catalog.Item) float64 {
	return r.least(item, func(b Basket) float64 { return float64(b.slots()) }) / float64(r.Tank.HalfSlots)
}

// least is the smallest part that an item takes of any basket that goes into
// the bath, each basket weighed.
func (r Request) least(item catalog.Item, weight func(Basket) float64) float64 {
	least := math.Inf(1)
	for _, b := range r.Baskets {
		part := b.part(item)
		if b.Count > 0 && b.slots() <= r.Tank.HalfSlots && part <= 1+hair {
			least = math.Min(least, weight(b)*part)
		}
	}
	return least
}

// resources are the limits of a wash, each with all others given up.
func (p *planner) resources() []resource {
	slots := p.resource(float64(p.Tank.HalfSlots), func(item catalog.Item) float64 {
		return p.least(item, func(b Basket) float64 { return float64(b.slots()) })
	})
	baskets := p.resource(float64(p.Tank.most()), func(item catalog.Item) float64 {
		return p.least(item, func(Basket) float64 { return 1 })
	})
	mass := p.resource(float64(p.mostMass()), func(item catalog.Item) float64 { return float64(item.Mass) })
	all := []resource{slots, baskets, p.deepOnly(), mass}
	if p.Tank.Freeboard > 0 {
		all = append(all, p.resource(float64(p.Tank.Freeboard), func(item catalog.Item) float64 { return float64(item.Displaces) }))
	}
	return all
}

func (p *planner) resource(most float64, takes func(catalog.Item) float64) resource {
	r := resource{most: most, plain: true}
	for _, piece := range p.pieces {
		r.takes = append(r.takes, takes(piece.Item))
	}
	return r
}

// deepOnly is the room in deep baskets, for what goes in no other.
func (p *planner) deepOnly() resource {
	there := 0
	for _, b := range p.Baskets {
		if b.Kind == catalog.BasketDeep {
			there += b.Count
		}
	}
	most := min(p.Tank.HalfSlots/2, p.Tank.most(), there)
	return p.resource(float64(most), func(item catalog.Item) float64 {
		inShallow := p.least(item, func(b Basket) float64 {
			if b.Kind == catalog.BasketDeep {
				return math.Inf(1)
			}
			return 1
		})
		if !math.IsInf(inShallow, 1) {
			return 0
		}
		return p.least(item, func(Basket) float64 { return 1 })
	})
}

// apart groups the pieces so that no two groups share a wash, by the minutes
// and by HeavyAlone, and so that the groups' bounds together prove most.
func (p *planner) apart(s *search) [][]int {
	var groups [][]int
	for _, alone := range []bool{false, true} {
		groups = append(groups, p.windows(s, func(b Batch) bool { return p.HeavyAlone && b.Soil == Heavy == alone || !p.HeavyAlone && !alone })...)
	}
	return groups
}

// windows cuts the minutes into spans: a piece counts in the span that all of
// its minutes, from wanted to longest, are in.
func (p *planner) windows(s *search, among func(Batch) bool) [][]int {
	type proof struct {
		score
		groups [][]int
	}
	cuts := p.cuts(among)
	best := make([]proof, len(cuts))
	for end := 1; end < len(cuts); end++ {
		for start := range end {
			group := []int{}
			for i, piece := range p.pieces {
				if among(piece.Batch) && piece.wanted >= cuts[start] && piece.longest < cuts[end] {
					group = append(group, i)
				}
			}
			with := best[start].plus(s.bounds.of(s.all, group))
			if with.compare(best[end].score) > 0 {
				best[end] = proof{with, append(slices.Clone(best[start].groups), group)}
			}
		}
	}
	return best[len(best)-1].groups
}

// cuts are the minutes that are wanted, and one after the last.
func (p *planner) cuts(among func(Batch) bool) []float64 {
	cuts := []float64{math.Inf(1)}
	for _, piece := range p.pieces {
		if among(piece.Batch) {
			cuts = append(cuts, piece.wanted)
		}
	}
	slices.Sort(cuts)
	return slices.Compact(cuts)
}
