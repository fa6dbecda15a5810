package cli

import (
	"fmt"
	"strconv"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// sayBothReadings puts the soap for a volume in words, by both ways to read
// "R to 1", and says which one is used here: the two have been mixed up often
// enough.
func sayBothReadings(sys units.System, volume units.Volume, ratio float64, inWater bool) string {
	used, other := " (volume/%g, used here)", " (volume/%g)"
	if inWater {
		used, other = other, used
	}
	total, water := bath.Charge(volume, ratio, false), bath.Charge(volume, ratio, true)
	return fmt.Sprintf("%s at %s to 1: %s"+used+" or %s"+other,
		sys.Volume(volume), strconv.FormatFloat(ratio, 'g', -1, 64), sayPour(sys, total), ratio, sayPour(sys, water), ratio+1)
}

// sayPour is a volume of soap as it stands in the tank and in a measuring jug.
func sayPour(sys units.System, v units.Volume) string {
	return sys.Volume(v) + " = " + sys.Pour(v)
}

// checkRatio refuses a ratio that no bath has.
func checkRatio(ratio float64) error {
	if ratio < 1 || ratio > 1000 {
		return refuse("input", "a ratio of %g to 1 is not one for a bath: 1 to 1000 are allowed", ratio)
	}
	return nil
}
