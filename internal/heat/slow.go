package heat

import (
	"fmt"
	"time"

	"bathside/internal/units"
)

// slowAt is the ratio of actual to expected from which a warm-up is a finding.
// Common practice, no source.
const slowAt = 1.5

// SlowWarmUp says what to look at where a warm-up took more than 1.5 times what
// was expected; it is false where there is nothing to say. Expected is best
// reckoned with the power on the heater's plate: a learned one hides a worn
// element. The time must end before the thermostat cuts in.
func SlowWarmUp(took, expected time.Duration) (string, bool) {
	if expected <= 0 || float64(took) <= slowAt*float64(expected) {
		return "", false
	}
	return fmt.Sprintf("the warm-up took %s, expected was %s: look at the level, then at the heater: scale, or an element that is dead",
		units.SpanOf(took.Round(time.Minute)), units.SpanOf(expected.Round(time.Minute)).About()), true
}
