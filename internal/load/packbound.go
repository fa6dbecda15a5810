package load

import (
	"cmp"
	"slices"
)

// resource is something that a cycle has only so much of, with what each piece
// takes. Whole numbers, or fractions where rounding is on the safe side.
type resource struct {
	takes []float64
	most  float64 // in one cycle
	plain bool    // a limit as the station knows it, not a transformed one
}

// hair is what adding fractions may leave over a limit.
const hair = 1e-9

// score is what a packing is judged by.
type score struct {
	cycles int
	time   float64
}

func (a score) compare(b score) int {
	switch {
	case a.cycles != b.cycles:
		return cmp.Compare(a.cycles, b.cycles)
	case a.time < b.time-hair:
		return -1
	case a.time > b.time+hair:
		return 1
	}
	return 0
}

func (a score) plus(b score) score { return score{a.cycles + b.cycles, a.time + b.time} }

// resources of the problem: each gives up all of its rules but one. The
// transformed floors are the bounds of Martello and Toth, Knapsack Problems
// (1990), chapter 8, and of Fekete and Schepers, Mathematical Programming 91
// (2001); a tall thing counts in both layers.
func (p Problem) resources(order []int) []resource {
	layers := float64(p.layers())
	floor := func(most int, takes func(area int) int) resource {
		return p.resource(order, layers*float64(most), func(t Type) int { return t.layers() * takes(t.Area) })
	}
	area := floor(p.LayerCap, func(area int) int { return area })
	area.plain = true
	tall := p.resource(order, float64(p.deep()*p.LayerCap), func(t Type) int {
		if t.Tall {
			return t.Area
		}
		return 0
	})
	tall.plain = true
	all := []resource{area, tall,
		p.resource(order, float64(p.deep()), func(t Type) int { return one(t.Tall && 2*t.Area > p.LayerCap) }),
		floor(1, func(area int) int { return one(2*area > p.LayerCap) }),
	}
	if most := p.mostMass(); most > 0 {
		mass := p.resource(order, float64(most), func(t Type) int { return t.Mass })
		mass.plain = true
		all = append(all, mass)
	}
	for _, small := range p.thresholds(order) {
		all = append(all, floor(p.LayerCap, func(area int) int { return withoutSmall(area, small, p.LayerCap) }))
	}
	for k := 1; k <= 12; k++ {
		all = append(all, floor(k*p.LayerCap, func(area int) int { return stepped(area, k, p.LayerCap) }))
	}
	return all
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

func (p Problem) resource(order []int, most float64, takes func(Type) int) resource {
	r := resource{most: most}
	for _, o := range order {
		r.takes = append(r.takes, float64(takes(p.Types[o])))
	}
	return r
}

// mostMass is the most in a cycle; 0 is no limit.
func (p Problem) mostMass() int {
	byBasket := p.MaxBaskets * p.MassBasket
	if p.MassCycle == 0 || byBasket > 0 && byBasket < p.MassCycle {
		return byBasket
	}
	return p.MassCycle
}

// thresholds are the areas up to half a layer, each once.
func (p Problem) thresholds(order []int) []int {
	var areas []int
	for _, o := range order {
		if a := p.Types[o].Area; a > 0 && 2*a <= p.LayerCap {
			areas = append(areas, a)
		}
	}
	slices.Sort(areas)
	return slices.Compact(areas)
}

// withoutSmall gives up what is smaller than small and lets what leaves no
// room for it have the whole layer.
func withoutSmall(area, small, layer int) int {
	switch {
	case area > layer-small:
		return layer
	case area < small:
		return 0
	}
	return area
}

// stepped rounds the area down to k+1 steps, which are worth a kth each: of
// things larger than a (k+1)th of the layer, k go in.
func stepped(area, k, layer int) int {
	if (k+1)*area%layer == 0 {
		return k * area
	}
	return (k + 1) * area / layer * layer
}

// bounds proves that some pieces need cycles and time.
type bounds struct {
	pieces    []piece // longest first
	resources []resource
	apart     [][]int   // groups of pieces of which no two share a cycle; empty where all may
	times     []float64 // proved for each cycle; kept to save memory
	some      []int     // likewise
	whole     []int     // all pieces
}

// least is a bound on the packings of these pieces.
func (b *bounds) least(c counts) score {
	whole := b.of(c, nil)
	if len(b.apart) == 0 {
		return whole
	}
	var sum score
	for _, group := range b.apart {
		sum = sum.plus(b.of(c, group))
	}
	if whole.compare(sum) > 0 {
		return whole
	}
	return sum
}

// of is the bound on the pieces of a group; nil is all of them. Sorted by
// time, let i be the first piece at which a resource runs over j-1 cycles. The
// pieces up to i do not go into j-1 cycles, so one of them is in a cycle
// ranked j or lower, and the jth longest cycle lasts as long as i or longer.
func (b *bounds) of(c counts, group []int) score {
	some := b.among(c, group)
	if len(some) == 0 {
		return score{}
	}
	b.times = append(b.times[:0], b.pieces[some[0]].time)
	for _, r := range b.resources {
		j, sum, over := 1, 0.0, r.most*(1+hair)
		for _, i := range some {
			for sum += float64(c[i]) * r.takes[i]; sum > over; over += r.most * (1 + hair) {
				b.note(j, b.pieces[i].time)
				j++
			}
		}
	}
	total := score{cycles: len(b.times)}
	shortest := b.pieces[some[len(some)-1]].time
	for _, t := range b.times {
		total.time += max(t, shortest)
	}
	return total
}

// among lists the pieces of the group that there are, longest first.
func (b *bounds) among(c counts, group []int) []int {
	b.some = b.some[:0]
	if group == nil {
		group = b.whole
	}
	for _, i := range group {
		if c[i] > 0 {
			b.some = append(b.some, i)
		}
	}
	return b.some
}

// note keeps the longest time that is proved for cycle j.
func (b *bounds) note(j int, time float64) {
	if j == len(b.times) {
		b.times = append(b.times, time)
		return
	}
	b.times[j] = max(b.times[j], time)
}
