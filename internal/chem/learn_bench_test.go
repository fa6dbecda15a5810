package chem

import (
	"math/rand/v2"
	"testing"
	"time"
)

var kept any

func BenchmarkRestate(b *testing.B) {
	f := family("soda-ash", 0)
	b.ReportAllocs()
	for b.Loop() {
		ph, _, _ := Restate(f, 10.10, 50, 25)
		kept = ph
	}
}

func BenchmarkPlan(b *testing.B) {
	belief := must(NewBelief(Family{}, Sample{10.10, 50}))
	b.ReportAllocs()
	for b.Loop() {
		kept = must(belief.Plan(lowBath(9.60, 50), 9.85))
	}
}

// BenchmarkLearn is the learning from 40 top-ups with the soap unknown. Its
// baseline is 40 bare calls of Solve, which is what one soap, foretold without
// a search, would cost at least.
func BenchmarkLearn(b *testing.B) {
	first := Sample{10.10, 50}
	rng := rand.New(rand.NewPCG(1, 2))
	c := truth(rng, family("soda-ash", 0), first)
	topups := c.history(rng, first, 40)
	began, solves := time.Now(), 0
	for time.Since(began) < 20*time.Millisecond {
		kept = must(Solve(c.fresh, 50))
		solves++
	}
	bare := 40 * time.Since(began).Seconds() / float64(solves)
	b.ReportAllocs()
	for b.Loop() {
		belief := must(NewBelief(Family{}, first))
		for _, t := range topups {
			belief = must(belief.Learn(t))
		}
		kept = belief
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/bare, "x-baseline")
}
