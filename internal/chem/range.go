package chem

import (
	"cmp"
	"slices"
)

// Range is where a quantity likely lies: in one case out of ten it is below
// Low, in one above High, and Mid is as likely too low as too high.
type Range[Q ~float64] struct{ Low, Mid, High Q }

// weighted is a value and how likely it is.
type weighted struct{ value, weight float64 }

// rangeOf sorts all and gives the range of it; of nothing it is 0.
func rangeOf[Q ~float64](all []weighted) Range[Q] {
	if len(all) == 0 {
		return Range[Q]{}
	}
	slices.SortFunc(all, func(a, b weighted) int { return cmp.Compare(a.value, b.value) })
	return Range[Q]{Q(quantile(all, 0.1)), Q(quantile(all, 0.5)), Q(quantile(all, 0.9))}
}

// quantile spreads the weight of each value evenly, halfway to its neighbours.
func quantile(sorted []weighted, part float64) float64 {
	total := 0.0
	for _, w := range sorted {
		total += w.weight
	}
	below, from := 0.0, sorted[0].value
	for i, w := range sorted {
		to := w.value
		if i+1 < len(sorted) {
			to = (w.value + sorted[i+1].value) / 2
		}
		if below+w.weight >= part*total && w.weight > 0 {
			return from + (to-from)*(part*total-below)/w.weight
		}
		below, from = below+w.weight, to
	}
	return from
}
