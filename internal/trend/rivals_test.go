package trend

import (
	"math"
	"slices"
)

// least fits by least squares with the package's own arithmetic: no prior, every
// reading of the same weight. Its covariance is scaled by the scatter.
func least(rows [][]float64, ys []float64) (mean []float64, cov matrix, sigma2 float64) {
	n := len(rows[0])
	b := newBelief(n)
	for i, x := range rows {
		b.see(x, ys[i], 1)
	}
	mean = make([]float64, n)
	cov = b.settle(mean)
	for i, x := range rows {
		e := ys[i] - dot(x, mean)
		sigma2 += e * e / float64(len(rows)-n)
	}
	for _, row := range cov {
		for j := range row {
			row[j] *= sigma2
		}
	}
	return mean, cov, sigma2
}

// dates reads the three dates from a chance of having come to the limit.
func dates(chance func(tau float64) float64) (q10, q50, q90 float64) {
	var c curve
	for i := range c {
		c[i] = chance(float64(i) * perStep)
		if i > 0 {
			c[i] = max(c[i], c[i-1])
		}
	}
	return c.date(0.1), c.date(0.5), c.date(0.9)
}

// leastDates are the dates by least squares on days, with a step for a top-up:
// Fieller's limits, where they are bounded. Where no reading is left to tell the
// scatter the answer is anything.
func leastDates(in Input) (q10, q50, q90 float64) {
	n := len(in.Days)
	if n <= 2+len(in.TopUps) {
		return 0, Horizon / 2, Horizon
	}
	stepped := !topped(in, 0) && topped(in, n-1)
	rows := make([][]float64, n)
	for i, day := range in.Days {
		rows[i] = []float64{1, day}
		if stepped {
			rows[i] = append(rows[i], claim(topped(in, i)))
		}
	}
	m, cov, _ := least(rows, in.Offsets)
	t := newStudent(float64(n - len(m)))
	ahead := rows[n-1]
	return dates(func(tau float64) float64 {
		ahead[1] = in.Now + tau
		return t.cdf((-Limit - dot(ahead, m)) / math.Sqrt(cov.spread(ahead)))
	})
}

// topped says whether the reading at index i is after the top-up.
func topped(in Input, i int) bool {
	return len(in.TopUps) > 0 && in.Days[i] >= in.TopUps[0].Day
}

func median(xs []float64) float64 {
	slices.Sort(xs)
	return (xs[(len(xs)-1)/2] + xs[len(xs)/2]) / 2
}

// theilSen is the median of the slopes of all pairs, and the line with it
// through the medians of both columns.
func theilSen(xs, ys []float64) (at0, slope float64) {
	var slopes []float64
	for i, x := range xs {
		for j := range i {
			if x != xs[j] {
				slopes = append(slopes, (ys[i]-ys[j])/(x-xs[j]))
			}
		}
	}
	slope = median(slopes)
	return median(slices.Clone(ys)) - slope*median(slices.Clone(xs)), slope
}

// theilSenDates draws the residuals anew again and again and sees how many of
// the lines have come to the limit. It looks only at the readings after a
// top-up, and has no date where there are fewer than two: the table's had another
// way there, and does better.
func theilSenDates(d dice, in Input) (q10, q50, q90 float64) {
	const draws = 60
	first, n := 0, len(in.Days)
	for topped(in, first) != topped(in, n-1) {
		first++
	}
	xs, ys := in.Days[first:], in.Offsets[first:]
	if len(xs) < 2 {
		return Horizon, Horizon, Horizon
	}
	at0, slope := theilSen(xs, ys)
	rest, drawn, crossings := make([]float64, len(xs)), make([]float64, len(xs)), make([]float64, draws)
	for i, x := range xs {
		rest[i] = (ys[i] - at0 - slope*x) * math.Sqrt(float64(len(xs))/max(1, float64(len(xs)-2)))
	}
	for k := range crossings {
		for i, x := range xs {
			drawn[i] = at0 + slope*x + rest[d.IntN(len(rest))]
		}
		a, b := theilSen(xs, drawn)
		crossings[k] = crossing(a, b, in.Now)
	}
	slices.Sort(crossings)
	return crossings[draws/10], crossing(at0, slope, in.Now), crossings[draws*9/10]
}

// crossing is when a line comes to the limit, in days from now.
func crossing(at0, slope, now float64) float64 {
	switch at := at0 + slope*now; {
	case at <= -Limit:
		return 0
	case slope >= 0:
		return Horizon
	default:
		return min(Horizon, (-Limit-at)/slope)
	}
}
