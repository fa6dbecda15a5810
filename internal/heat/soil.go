package heat

import (
	"math"

	"bathside/internal/units"
)

// Soil is the soil in the bath after a run of t, in the unit of start, a mass
// per litre: gain is what comes in meanwhile, so much a litre and second. With a
// gain it settles at gain over efficiency and turnovers a second. It is NaN
// where Run would refuse filter or time.
func (f Filter) Soil(start, gain float64, t units.Span) float64 {
	run, err := f.Run(t)
	if err != nil {
		return math.NaN()
	}
	return start*(1-run.Removed) + gain*float64(t)*decayed(f.Efficiency*run.Turnovers)
}
