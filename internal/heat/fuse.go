package heat

import (
	"cmp"
	"math"
	"slices"
)

// Estimate is a figure learned from the log, with its standard uncertainty.
// Used is how many stretches of the log it stands on, Left how many were left
// out because they fit none of the others; with none used it is what was
// assumed.
type Estimate struct {
	Value, U   float64
	Used, Left int
}

// item is one finding of a figure, with its standard uncertainty.
type item struct{ value, sd float64 }

// farOff is how many standard uncertainties make a finding one of another kind:
// a lid left up, a refill nobody logged.
const farOff = 3

// fuse is the mean of what was found and of what was assumed before, each by
// its weight. What lies far from the weighted median is left out first. Where
// the rest differ by more than they claim, sd grows with that.
func fuse(prior item, found []item) (mean, sd float64, used int) {
	near := []item{prior}
	middle := median(append([]item{prior}, found...))
	for _, f := range found {
		if math.Abs(f.value-middle) <= farOff*f.sd {
			near = append(near, f)
		}
	}
	var sum, weight, misfit float64
	for _, f := range near {
		w := 1 / (f.sd * f.sd)
		sum += w * f.value
		weight += w
	}
	mean = sum / weight
	for _, f := range near[1:] {
		misfit += (f.value - mean) * (f.value - mean) / (f.sd * f.sd)
	}
	used = len(near) - 1
	worse := max(1, math.Sqrt(misfit/float64(max(1, used))))
	return mean, worse / math.Sqrt(weight), used
}

// median is the value with half of the weight on either side, each item
// weighing what it is sure of. There must be one item at least.
func median(items []item) float64 {
	sorted := slices.SortedFunc(slices.Values(items), func(a, b item) int { return cmp.Compare(a.value, b.value) })
	var half float64
	for _, f := range sorted {
		half += 0.5 / f.sd
	}
	for _, f := range sorted {
		if half -= 1 / f.sd; half <= 0 {
			return f.value
		}
	}
	return sorted[len(sorted)-1].value
}

// mark is a point of a line: y at x, with the standard uncertainty of y.
type mark struct{ x, y, sd float64 }

// slope is that of the line through points, as the median of the slopes of all
// pairs: one odd point in six does not turn it. Its uncertainty is that of the
// weighted least squares. There must be two points at least, none over another.
func slope(points []mark) item {
	var pairs []item
	var weight, sum float64
	for i, p := range points {
		for _, q := range points[:i] {
			dx := p.x - q.x
			pairs = append(pairs, item{(p.y - q.y) / dx, math.Hypot(p.sd, q.sd) / math.Abs(dx)})
		}
		w := 1 / (p.sd * p.sd)
		weight += w
		sum += w * p.x
	}
	var spread float64
	for _, p := range points {
		spread += (p.x - sum/weight) * (p.x - sum/weight) / (p.sd * p.sd)
	}
	return item{median(pairs), 1 / math.Sqrt(spread)}
}
