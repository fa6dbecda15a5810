package load_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"bathside/internal/load"
)

// drawProblem draws a wash of so many things of so many types: kinds, sizes, masses, minutes
// and shares of tall, lidded and protruding things as in planner_cases.jsonl.
func drawProblem(chance *rand.Rand, things, types int) load.Problem {
	times := []float64{5, 8, 10, 15, 20, 30}
	p := load.Problem{MassBasket: 250, MassCycle: 450, LayerCap: 272}
	p.HalfSlots = 2 + 2*chance.IntN(2)
	p.MaxBaskets = p.HalfSlots
	for range types {
		lid := chance.Float64() < 0.15
		p.Types = append(p.Types, load.Type{
			Area: 15 + chance.IntN(112), Mass: 5 + chance.IntN(45), Time: times[chance.IntN(len(times))], N: 1,
			Tall: chance.Float64() < 0.25, Lid: lid, Protrude: !lid && chance.Float64() < 0.2,
		})
	}
	for range things - len(p.Types) {
		p.Types[chance.IntN(len(p.Types))].N++
	}
	return p
}

// BenchmarkPack prints how many of 60 drawn washes are proved in a given time,
// how many are within a cycle of the bound, and the longest wait.
func BenchmarkPack(b *testing.B) {
	tests := []struct {
		things, types int
		within        time.Duration
	}{
		{10, 10, 20 * time.Millisecond}, {10, 4, 20 * time.Millisecond},
		{20, 20, 50 * time.Millisecond}, {20, 7, 50 * time.Millisecond},
		{60, 60, 2 * time.Second}, {60, 10, 2 * time.Second},
	}
	for _, tt := range tests {
		b.Run(fmt.Sprint(tt.things, " things of ", tt.types), func(b *testing.B) {
			for b.Loop() {
				chance := rand.New(rand.NewPCG(7, uint64(tt.things*tt.types)))
				proved, near, equal, longest := 0, 0, 0, time.Duration(0)
				for range 60 {
					p := drawProblem(chance, tt.things, tt.types)
					start := time.Now()
					got, err := load.Pack(p, func() bool { return time.Since(start) > tt.within })
					if err != nil {
						b.Fatal(err)
					}
					longest = max(longest, time.Since(start))
					if got.Proved {
						proved++
					}
					switch len(got.Cycles) - got.LowerBound {
					case 0:
						equal++
						near++
					case 1:
						near++
					}
				}
				b.ReportMetric(float64(proved), "proved")
				b.ReportMetric(float64(equal), "at-bound")
				b.ReportMetric(float64(near), "within-one")
				b.ReportMetric(float64(longest.Milliseconds()), "longest-ms")
			}
		})
	}
}
