package load

import (
	"fmt"
	"math"
	"strconv"
)

// say puts the minutes in words. wanted is what the bath asks for, which may
// be more than the item can have.
func (c Cycle) say(wanted float64, in Conditions) string {
	set, minutes := in.Units.Temp(in.Set), number(c.Minutes)
	switch {
	case math.IsNaN(float64(in.Bath)):
		return fmt.Sprintf("%s min at %s. Measure the bath first.", minutes, set)
	case c.Capped:
		return fmt.Sprintf("%s min, the longest for %s: at %s it would take %s. %s",
			minutes, c.Item.Plural, in.Units.Temp(in.Bath), number(wanted), c.instead(in))
	case in.below() > 0:
		return fmt.Sprintf("%s min: %s at %s, the bath is %s below.",
			minutes, number(c.MinutesAtSet), set, in.Units.Delta(in.below()))
	case in.Bath > in.Set:
		return fmt.Sprintf("%s min, as at %s: a hotter bath is no reason for less.", minutes, set)
	}
	return minutes + " min."
}

// instead is the advice when there are not minutes enough.
func (c Cycle) instead(in Conditions) string {
	if in.Set > c.Item.Limit.Hottest() { // it may not go in a hotter bath
		return "Light soil only; look, and wash again if needed."
	}
	return "Heat the bath first."
}

// number prints minutes: "5", "4.5".
func number(minutes float64) string { return strconv.FormatFloat(minutes, 'f', -1, 64) }
