package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// How many standard uncertainties stand for how sure.
const (
	z95 = 1.645 // to one side
	z90 = 1.282 // to one side: one in ten is below, one in ten above
)

// Real is the smallest drop in pH that is no chance, at 95 % to one side, where
// the difference has the standard uncertainty u.
func Real(u float64) float64 { return z95 * u }

// Stated is the drop to be read before one can state, at 95 %, that the bath
// dropped by limit or more: 0.62 for a limit of 0.5 and one meter that was
// calibrated between, 0.83 for two meters.
func Stated(limit, u float64) float64 { return limit + z95*u }

// DropWords says what a drop of pH is worth when the difference has the
// standard uncertainty u: "real, not yet at the limit". It compares what is
// shown, to the hundredth. What could be is the likely range, one in ten to
// either side.
func DropWords(drop, u, limit float64) string {
	_, words := dropWords(drop, u, limit)
	return words
}

// DropLine is the drop with its words: "0.31, real, not yet at the limit".
func DropLine(drop, u, limit float64) string {
	join, words := dropWords(drop, u, limit)
	return units.PH(drop).String() + join + words
}

const readAgain = "; read again with the same meter"

// dropWords also returns what joins the words to the number.
func dropWords(drop, u, limit float64) (join, words string) {
	if math.IsNaN(drop) || !(u > 0) || math.IsInf(u, 1) {
		return ": ", "nobody can say; read again with a checked meter"
	}
	drop = hundredths(drop)
	var (
		isReal  = math.Abs(drop) >= hundredths(Real(u))
		under   = drop <= hundredths(limit-Real(u))
		over    = drop >= hundredths(Stated(limit, u))
		low, hi = likelyRange(drop, u)
	)
	switch {
	case over:
		return ", ", "over the limit, surely"
	case isReal && drop < 0:
		return ", ", "a rise, and real"
	case isReal && under:
		return ", ", "real, not yet at the limit"
	case isReal:
		return ": ", fmt.Sprintf("could be %s, could be %s%s", low, hi, readAgain)
	case under:
		return ": ", "could be noise"
	}
	return ": ", fmt.Sprintf("could be noise, could be %s%s", hi, readAgain)
}

// likelyRange is where the drop likely is, to the tenth of a pH or, where that
// would print one number twice, to the hundredth.
func likelyRange(drop, u float64) (low, high string) {
	a, b := drop-z90*u, drop+z90*u
	low, high = fmt.Sprintf("%.1f", tenths(a)+0), fmt.Sprintf("%.1f", tenths(b)+0)
	if low == high {
		low, high = units.PH(a).String(), units.PH(b).String()
	}
	return low, high
}
