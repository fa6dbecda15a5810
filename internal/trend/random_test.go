package trend

import (
	"math"
	"math/rand/v2"
)

// dice draws from the distributions that made-up baths need.
type dice struct{ *rand.Rand }

func newDice(seed ...uint64) dice {
	seed = append(seed, 20250101, 0)
	return dice{rand.New(rand.NewPCG(seed[0], seed[1]))}
}

func (d dice) uniform(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

// gamma is of scale 1 and a shape of 1 or more (Marsaglia and Tsang 2000).
func (d dice) gamma(shape float64) float64 {
	a := shape - 1.0/3
	c := 1 / math.Sqrt(9*a)
	for {
		x := d.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v *= v * v
		if math.Log(1-d.Float64()) < x*x/2+a-a*v+a*math.Log(v) {
			return a * v
		}
	}
}

func (d dice) poisson(mean float64) float64 {
	n, p, end := 0.0, 1.0, math.Exp(-mean)
	for p *= d.Float64(); p > end; p *= d.Float64() {
		n++
	}
	return n
}

// negBin has the variance m+m²/2.
func (d dice) negBin(m float64) float64 { return d.poisson(d.gamma(2) * m / 2) }

// shares are n gaps of a span, by Dirichlet's distribution with 1.5 for each.
func (d dice) shares(n int) []float64 {
	gaps, sum := make([]float64, n), 0.0
	for i := range gaps {
		gaps[i] = d.gamma(1.5)
		sum += gaps[i]
	}
	for i := range gaps {
		gaps[i] /= sum
	}
	return gaps
}
