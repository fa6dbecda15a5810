package chem

import (
	"math"

	"bathside/internal/units"
)

// What a mole of charge works with, CODATA 2018, exact.
const (
	gas     = 8.314462618 // J/(mol·K)
	faraday = 96485.33212 // C/mol
)

// NernstSlope is what a perfect electrode gives for one pH at a temperature, in
// millivolts: 59.16 at 25 °C, 64.12 at 50 °C. Its sign is left to the caller: a
// glass electrode falls as the pH rises.
func NernstSlope(t units.Temperature) float64 {
	return 1000 * math.Ln10 * gas / faraday * t.K()
}
