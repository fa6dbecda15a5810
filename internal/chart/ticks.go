package chart

import (
	"math"
	"strconv"
)

// Tick is a labelled place on an axis.
type Tick struct {
	At    float64
	Label string
}

// Ticks chooses the marks of an axis from lo to hi, ascending, and no more than
// most of them. Draw asks again with a smaller most until the labels fit.
type Ticks func(lo, hi float64, most int) []Tick

// Decimal is a Ticks with steps of 1, 2 or 5 times a power of ten, and labels
// with just the decimals the step needs.
func Decimal(lo, hi float64, most int) []Tick {
	if most < 1 || !(hi > lo) {
		return nil
	}
	step := tidy((hi - lo) / float64(most))
	ticks := multiples(lo, hi, step)
	for len(ticks) > most { // most intervals may have one end more
		step = tidy(step * 1.5)
		ticks = multiples(lo, hi, step)
	}
	return ticks
}

// tidy returns the smallest of 1, 2 and 5 times a power of ten that is not less
// than v, which is above 0.
func tidy(v float64) float64 {
	const slack = 1 + 1e-9 // 0.1 is not to become 0.2 for a rounding error
	unit := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if m*unit*slack >= v {
			return m * unit
		}
	}
	return 10 * unit
}

// multiples returns a tick at each multiple of step from lo to hi, the ends
// included.
func multiples(lo, hi, step float64) []Tick {
	var ticks []Tick
	const slack = 1e-9 // in steps
	for k := math.Ceil(lo/step - slack); k <= hi/step+slack; k++ {
		v := k * step
		if v == 0 {
			v = 0 // not -0, which would show its sign
		}
		ticks = append(ticks, Tick{v, number(v, step)})
	}
	return ticks
}

// number writes v with the decimals of a 1-2-5 step.
func number(v, step float64) string {
	if step >= 1e6 || step < 1e-6 {
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// fit returns the range of y for a number of rows, at least three, and the step
// of its labels. Every value of s falls in a row, and every multiple of the step
// on the middle of one: the step is a whole number of rows.
func fit(s span, rows int) (span, float64) {
	row := (s.hi - s.lo) / float64(rows-1)
	// Between two labels and eight or so; of the distances that give them, the
	// one that makes the rows finest wastes least of the window. Steps grow by
	// 2.5 at most, and so need distances do no more.
	least := max(2, rows/8)
	most := max(least, min(least*5/2, (rows-1)/2))
	step, best := 0.0, math.Inf(1)
	for k := least; k <= most; k++ {
		if t := tidy(row * float64(k)); t/float64(k) < best {
			step, best = t, t/float64(k)
		}
	}
	// Centred, to the nearest row: a value is at most half a row outside.
	height := best * float64(rows-1)
	foot := math.Round((s.lo-(height-(s.hi-s.lo))/2)/best) * best
	return span{foot, foot + height}, step
}
