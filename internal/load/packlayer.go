package load

import "slices"

// The two makes of basket that a [Problem] has.
const (
	shallowMake = iota
	deepMake
)

// tank is the room in the bath of the problem, and what its baskets hold.
func (p Problem) tank(order []int) *tank {
	types := make([]Type, len(order))
	for i, o := range order {
		types[i] = p.Types[o]
	}
	return newTank(tank{
		slots: p.HalfSlots,
		most:  p.MaxBaskets,
		makes: []basketMake{
			shallowMake: {slots: 1, count: p.MaxBaskets},
			deepMake:    {slots: 2, count: p.MaxBaskets},
		},
		// Two shallow baskets hold whatever short things a deep one holds,
		// where there is a basket for every half slot.
		deepLast: p.MaxBaskets >= p.HalfSlots,
		holds: func(of int, in counts) bool {
			return p.holds(types, of, in)
		},
	}, p.pieces(order))
}

// holds says whether one basket holds these things: mass, lid, and floor.
func (p Problem) holds(types []Type, of int, in counts) bool {
	var mass, tall, short int
	var lid, protrude bool
	for i, n := range in {
		if n == 0 {
			continue
		}
		t := types[i]
		mass += int(n) * t.Mass
		lid, protrude = lid || t.Lid, protrude || t.Protrude
		if t.Tall {
			tall += int(n) * t.Area
		} else {
			short += int(n) * t.Area
		}
	}
	switch {
	case p.MassBasket > 0 && mass > p.MassBasket, lid && protrude:
		return false
	case of == shallowMake:
		return tall == 0 && short <= p.LayerCap
	}
	layer := p.LayerCap - tall
	return layer >= 0 && short <= 2*layer && splits(types, in, layer, short)
}

// splits says whether the short things go into two layers with so much floor
// each: whether some of them come to no more than a layer and no less than
// what the other one cannot take.
func splits(types []Type, in counts, layer, short int) bool {
	least := short - layer
	if least <= 0 {
		return true
	}
	sums := []int{0} // floor that some of the things so far take, sorted
	for i, n := range in {
		if types[i].Tall {
			continue
		}
		for range n {
			sums = withOneMore(sums, types[i].Area, layer)
			if sums[len(sums)-1] >= least {
				return true
			}
		}
	}
	return false
}

// withOneMore adds to the sums those with one more thing in them, up to most.
func withOneMore(sums []int, area, most int) []int {
	for _, s := range sums {
		if s+area <= most {
			sums = append(sums, s+area)
		}
	}
	slices.Sort(sums)
	return slices.Compact(sums)
}
