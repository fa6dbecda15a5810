package load

import (
	"fmt"
	"slices"
)

// Problem is a wash in the abstract: things that take up floor, and baskets
// that go into the bath a few at a time. All numbers but the minutes are
// whole, in any units that agree with each other. It knows floor, mass, lids
// and minutes; it does not know that a thing may stay in too long: [Plan] does.
type Problem struct {
	HalfSlots  int    `json:"half_slots"`  // room in the bath: a shallow basket takes one, a deep one two
	MaxBaskets int    `json:"max_baskets"` // in the bath at once
	MassBasket int    `json:"mass_basket"` // most in one basket; 0 is no limit
	MassCycle  int    `json:"mass_cycle"`  // most in one cycle; 0 is no limit
	LayerCap   int    `json:"layer_cap"`   // floor of one layer: a shallow basket has one, a deep one two
	Types      []Type `json:"types"`
}

// Type is a number of like things.
type Type struct {
	Area     int     `json:"area"` // of one layer; of both when Tall
	Mass     int     `json:"mass"`
	Time     float64 `json:"time"` // minutes, at least
	N        int     `json:"n"`
	Tall     bool    `json:"tall"`     // goes in a deep basket only
	Lid      bool    `json:"lid"`      // closes its basket
	Protrude bool    `json:"protrude"` // sticks out of its basket, which no lid then closes
}

// Packing is what [Pack] found. Cycles may be run in any order.
type Packing struct {
	Cycles         []PackedCycle `json:"washes"`
	TotalTime      float64       `json:"total_time"`         // sum over the cycles
	LowerBound     int           `json:"lower_bound_cycles"` // fewer cycles are impossible
	LowerBoundTime float64       `json:"lower_bound_time"`   // with that many cycles, less time is impossible
	Proved         bool          `json:"proved"`             // no packing has fewer cycles, or as many and less time
}

// PackedCycle is one cycle. It lasts as long as the longest thing in it.
type PackedCycle struct {
	Time    float64        `json:"time"`
	Baskets []PackedBasket `json:"baskets"`
}

// PackedBasket is what goes in one basket: how many of each type of the
// problem, in its order.
type PackedBasket struct {
	Deep   bool  `json:"deep"`
	Lid    bool  `json:"lid"`
	Counts []int `json:"counts"`
}

// mostThings bounds a problem: a station's wash after the largest fire is
// far below it.
const mostThings = 200

// Pack puts all things into as few cycles as it can find, and among those into
// the least total time. stop is asked every few thousandths of a second; once
// it says true the best so far is returned. Without stop the search ends by
// itself after some seconds at most. The same problem with the same answers of
// stop gives the same packing. The error names what cannot be packed at all.
func Pack(p Problem, stop func() bool) (Packing, error) {
	if err := p.check(); err != nil {
		return Packing{}, err
	}
	order := p.order()
	s := newSearch(p.pieces(order), p.resources(order), nil, p.tank(order), stop)
	if i := s.misfit(); i >= 0 {
		t := p.Types[order[i]]
		return Packing{}, fmt.Errorf("type %d (area %d, mass %d) fits no basket: a layer has %d, a basket holds %d; take it out",
			order[i]+1, t.Area, t.Mass, p.LayerCap, p.MassBasket)
	}
	s.run()
	return p.packing(s, order), nil
}

// check refuses numbers under which the arithmetic means nothing.
func (p Problem) check() error {
	switch {
	case p.HalfSlots < 1 || p.HalfSlots > 64:
		return fmt.Errorf("half_slots is %d; write 1 to 64", p.HalfSlots)
	case p.MaxBaskets < 1 || p.MaxBaskets > 64:
		return fmt.Errorf("max_baskets is %d; write 1 to 64", p.MaxBaskets)
	case p.LayerCap < 1 || p.LayerCap > 1e9:
		return fmt.Errorf("layer_cap is %d; write 1 to a thousand million", p.LayerCap)
	case p.MassBasket < 0 || p.MassCycle < 0:
		return fmt.Errorf("mass_basket is %d and mass_cycle %d; write 0 for no limit, or more", p.MassBasket, p.MassCycle)
	}
	things := 0
	for i, t := range p.Types {
		if t.Area < 0 || t.Area > 1e9 || t.Mass < 0 || t.Mass > 1e9 || t.N < 0 || t.N > mostThings {
			return fmt.Errorf("type %d has area %d, mass %d, n %d; write none below 0 and n up to %d", i+1, t.Area, t.Mass, t.N, mostThings)
		}
		if !(t.Time >= 0 && t.Time <= 1e6) {
			return fmt.Errorf("type %d has time %v; write minutes, 0 or more", i+1, t.Time)
		}
		things += t.N
	}
	if things > mostThings {
		return fmt.Errorf("%d things; pack %d at most", things, mostThings)
	}
	return nil
}

// order lists the types as the search wants them: the longest first, the
// largest among equals. Empty types are left out.
func (p Problem) order() []int {
	var order []int
	for i, t := range p.Types {
		if t.N > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		ta, tb := p.Types[a], p.Types[b]
		return longestThenLargest(ta.Time, p.share(ta), tb.Time, p.share(tb))
	})
	return order
}

// share is the part of a cycle that one thing takes, by floor or by mass.
func (p Problem) share(t Type) float64 {
	share := float64(t.layers()*t.Area) / float64(p.layers()*p.LayerCap)
	if p.MassCycle > 0 {
		share = max(share, float64(t.Mass)/float64(p.MassCycle))
	}
	return share
}

// layers is how many layers one thing takes floor of.
func (t Type) layers() int {
	if t.Tall {
		return 2
	}
	return 1
}

// layers is how many layers go into the bath at once.
func (p Problem) layers() int { return min(p.HalfSlots, 2*p.MaxBaskets) }

// deep is how many deep baskets go into the bath at once.
func (p Problem) deep() int { return min(p.HalfSlots/2, p.MaxBaskets) }

func (p Problem) pieces(order []int) []piece {
	pieces := make([]piece, len(order))
	for i, o := range order {
		t := p.Types[o]
		pieces[i] = piece{time: t.Time, n: t.N, share: p.share(t), first: t.Tall}
	}
	return pieces
}

// packing puts the best that was found in the words of the problem.
func (p Problem) packing(s *search, order []int) Packing {
	out := Packing{TotalTime: s.best.time, Proved: s.proved, LowerBound: s.bound.cycles, LowerBoundTime: s.bound.time}
	for _, f := range s.best.fills {
		cycle := PackedCycle{Time: s.timeOf(f)}
		stowed, _ := s.tank.stow(f)
		for _, b := range stowed {
			basket := PackedBasket{Deep: b.of == deepMake, Counts: make([]int, len(p.Types))}
			for i, n := range b.in {
				basket.Counts[order[i]] += int(n)
				basket.Lid = basket.Lid || n > 0 && p.Types[order[i]].Lid
			}
			cycle.Baskets = append(cycle.Baskets, basket)
		}
		out.Cycles = append(out.Cycles, cycle)
	}
	return out
}
