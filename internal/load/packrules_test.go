package load_test

import (
	"fmt"
	"testing"

	"bathside/internal/load"
)

// fataler is what testing and rapid have in common.
type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// checkPacking holds a packing against the rules of the problem, counted anew.
func checkPacking(t fataler, p load.Problem, got load.Packing) {
	t.Helper()
	packed := make([]int, len(p.Types))
	total := 0.0
	for _, c := range got.Cycles {
		slots, mass, longest := 0, 0, 0.0
		for _, b := range c.Baskets {
			slots++
			if b.Deep {
				slots++
			}
			inBasket, wrong := wrongIn(p, b)
			if wrong != "" {
				t.Fatalf("%s", wrong)
			}
			mass += inBasket
			for i, n := range b.Counts {
				packed[i] += n
				if n > 0 {
					longest = max(longest, p.Types[i].Time)
				}
			}
		}
		total += c.Time
		switch {
		case c.Time != longest:
			t.Fatalf("cycle of %v min, longest in it %v", c.Time, longest)
		case slots > p.HalfSlots || len(c.Baskets) > p.MaxBaskets:
			t.Fatalf("%d baskets take %d half slots of %d", len(c.Baskets), slots, p.HalfSlots)
		case p.MassCycle > 0 && mass > p.MassCycle:
			t.Fatalf("mass %d in a cycle, %d allowed", mass, p.MassCycle)
		}
	}
	for i, n := range packed {
		if n != p.Types[i].N {
			t.Fatalf("type %d: %d packed of %d", i, n, p.Types[i].N)
		}
	}
	if total != got.TotalTime || len(got.Cycles) < got.LowerBound || len(got.Cycles) == got.LowerBound && total < got.LowerBoundTime {
		t.Fatalf("%d cycles of %v min, said %v, bound %d and %v", len(got.Cycles), total, got.TotalTime, got.LowerBound, got.LowerBoundTime)
	}
}

// wrongIn says what is against the rules in a basket.
func wrongIn(p load.Problem, b load.PackedBasket) (mass int, wrong string) {
	tall, lid, protrude := 0, false, false
	var short []int
	for i, n := range b.Counts {
		for range n {
			thing := p.Types[i]
			mass += thing.Mass
			lid, protrude = lid || thing.Lid, protrude || thing.Protrude
			if thing.Tall {
				tall += thing.Area
			} else {
				short = append(short, thing.Area)
			}
		}
	}
	layers := []int{p.LayerCap - tall}
	if b.Deep {
		layers = append(layers, p.LayerCap-tall)
	}
	switch {
	case lid && protrude:
		return mass, "a lid is needed, and something sticks out"
	case lid != b.Lid:
		return mass, fmt.Sprintf("lid needed %v, on %v", lid, b.Lid)
	case tall > 0 && !b.Deep:
		return mass, "tall things in a shallow basket"
	case p.MassBasket > 0 && mass > p.MassBasket:
		return mass, fmt.Sprintf("mass %d in a basket, %d allowed", mass, p.MassBasket)
	case layers[0] < 0 || !layersHold(short, layers):
		return mass, fmt.Sprintf("things of %v do not go into layers of %v", short, layers)
	}
	return mass, ""
}

// layersHold tries every way.
func layersHold(things, layers []int) bool {
	if len(things) == 0 {
		return true
	}
	for i := range layers {
		if things[0] > layers[i] {
			continue
		}
		layers[i] -= things[0]
		fits := layersHold(things[1:], layers)
		layers[i] += things[0]
		if fits {
			return true
		}
	}
	return false
}

func TestPackErrors(t *testing.T) {
	good := load.Problem{HalfSlots: 2, MaxBaskets: 2, MassBasket: 50, LayerCap: 100, Types: []load.Type{{Area: 10, Mass: 5, N: 1}}}
	tests := []struct {
		name   string
		change func(*load.Problem)
		want   string
	}{
		{"no room", func(p *load.Problem) { p.HalfSlots = 0 }, "half_slots is 0; write 1 to 64"},
		{"no basket", func(p *load.Problem) { p.MaxBaskets = 0 }, "max_baskets is 0; write 1 to 64"},
		{"no floor", func(p *load.Problem) { p.LayerCap = 0 }, "layer_cap is 0; write 1 to a thousand million"},
		{"mass below 0", func(p *load.Problem) { p.MassCycle = -1 }, "mass_basket is 50 and mass_cycle -1; write 0 for no limit, or more"},
		{"too many", func(p *load.Problem) { p.Types[0].N = 201 }, "type 1 has area 10, mass 5, n 201; write none below 0 and n up to 200"},
		{"too large", func(p *load.Problem) { p.Types[0].Area = 101 }, "type 1 (area 101, mass 5) fits no basket: a layer has 100, a basket holds 50; take it out"},
		{"too heavy", func(p *load.Problem) { p.Types[0].Mass = 51 }, "type 1 (area 10, mass 51) fits no basket: a layer has 100, a basket holds 50; take it out"},
		{"tall, and no room for a deep basket", func(p *load.Problem) { p.HalfSlots, p.Types[0].Tall = 1, true }, "type 1 (area 10, mass 5) fits no basket: a layer has 100, a basket holds 50; take it out"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := good
			p.Types = []load.Type{good.Types[0]}
			tt.change(&p)
			if _, err := load.Pack(p, nil); err == nil || err.Error() != tt.want {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
}
