package chem

import (
	"fmt"

	"bathside/internal/units"
)

// Bleach is how much sodium hypochlorite solution of percent, by weight in
// volume as its label gives it, brings v litres of water to ppm of available
// chlorine: 1 mL of 1 % holds 10 mg. It errs when percent or ppm is outside
// what labels and skin allow.
func Bleach(v units.Volume, percent, ppm float64) (units.Volume, error) {
	switch {
	case !(v > 0):
		return 0, fmt.Errorf("no water takes no bleach: give how much is in the basin")
	case !(percent >= 1 && percent <= 15):
		return 0, fmt.Errorf("bleach of %g %% is not sold: read the label, where 5.25, 6 and 8.25 are usual; 1 to 15 are allowed", percent)
	case !(ppm >= 1 && ppm <= 1000):
		return 0, fmt.Errorf("%g ppm of chlorine is not within 1 to 1000: masks take 50", ppm)
	}
	return v * units.Volume(ppm/(percent*1e4)), nil
}
