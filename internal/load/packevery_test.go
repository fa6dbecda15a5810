package load_test

import (
	"slices"
	"testing"

	"bathside/internal/load"

	"pgregory.net/rapid"
)

// bestOf tries every way of sharing out the things over cycles.
func bestOf(p load.Problem, things []int, cycles [][]int, best [2]float64) [2]float64 {
	if len(things) == 0 {
		now := [2]float64{float64(len(cycles))}
		for _, c := range cycles {
			longest := 0.0
			for _, i := range c {
				longest = max(longest, p.Types[i].Time)
			}
			now[1] += longest
		}
		if now[0] < best[0] || now[0] == best[0] && now[1] < best[1] {
			return now
		}
		return best
	}
	for at := range len(cycles) + 1 {
		next := slices.Clone(cycles)
		if at == len(cycles) {
			next = append(next, nil)
		}
		next[at] = append(slices.Clone(next[at]), things[0])
		if goesIn(p, next[at], nil) {
			best = bestOf(p, things[1:], next, best)
		}
	}
	return best
}

// goesIn tries every way of sharing out the things over baskets.
func goesIn(p load.Problem, things []int, baskets []load.PackedBasket) bool {
	if len(things) == 0 {
		mass, slots := 0, len(baskets)
		for _, b := range baskets {
			if b.Deep {
				slots++
			}
			for i, n := range b.Counts {
				b.Lid = b.Lid || n > 0 && p.Types[i].Lid
			}
			inBasket, wrong := wrongIn(p, b)
			if wrong != "" {
				return false
			}
			mass += inBasket
		}
		return slots <= p.HalfSlots && len(baskets) <= p.MaxBaskets && (p.MassCycle == 0 || mass <= p.MassCycle)
	}
	for at := range len(baskets) + 2 {
		next := slices.Clone(baskets)
		if at >= len(baskets) {
			next = append(next, load.PackedBasket{Deep: at > len(baskets), Counts: make([]int, len(p.Types))})
		}
		in := &next[min(at, len(baskets))]
		in.Counts = slices.Clone(in.Counts)
		in.Counts[things[0]]++
		if goesIn(p, things[1:], next) {
			return true
		}
	}
	return false
}

// Small washes of every kind, against every way there is.
func TestPackAgainstEveryWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := load.Problem{
			HalfSlots: rapid.IntRange(2, 4).Draw(t, "half slots"), MaxBaskets: rapid.IntRange(1, 3).Draw(t, "baskets"),
			MassBasket: rapid.IntRange(10, 40).Draw(t, "mass of a basket"), MassCycle: rapid.IntRange(10, 60).Draw(t, "mass of a cycle"), LayerCap: 100,
		}
		var things []int
		for i := range rapid.IntRange(0, 4).Draw(t, "types") {
			lid := rapid.IntRange(0, 3).Draw(t, "lid") == 0
			thing := load.Type{
				Area: rapid.IntRange(5, 100).Draw(t, "area"), Mass: rapid.IntRange(1, 10).Draw(t, "mass"), Time: float64(rapid.IntRange(1, 4).Draw(t, "time")),
				N: 1, Tall: rapid.IntRange(0, 3).Draw(t, "tall") == 0, Lid: lid, Protrude: !lid && rapid.Bool().Draw(t, "protrude"),
			}
			if len(things) < 4 && rapid.Bool().Draw(t, "two") {
				thing.N = 2
			}
			things = append(things, slices.Repeat([]int{i}, thing.N)...)
			p.Types = append(p.Types, thing)
		}
		got, err := load.Pack(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		checkPacking(t, p, got)
		want := bestOf(p, things, nil, [2]float64{100})
		if len(things) == 0 {
			want = [2]float64{}
		}
		if float64(len(got.Cycles)) != want[0] || got.TotalTime != want[1] || !got.Proved {
			t.Fatalf("got %d cycles, %v min, proved %v; want %v", len(got.Cycles), got.TotalTime, got.Proved, want)
		}
	})
}
