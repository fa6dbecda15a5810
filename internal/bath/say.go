package bath

import (
	"fmt"
	"math"
	"strconv"

	"bathside/internal/units"
)

// sysText prints quantities in the station's units, for refusals.
type sysText struct{ sys units.System }

func (t sysText) vol(v units.Volume) string       { return t.sys.Text(v) }
func (t sysText) temp(c units.Temperature) string { return t.sys.Text(c) }
func (t sysText) span(s units.Span) string        { return t.sys.Text(s) }

// pair prints two temperatures so that they look as different as they are.
func (t sysText) pair(a, b units.Temperature) (string, string) { return t.sys.TempPair(a, b) }

// plural counts things: "2 jugs", "1 jug", "1.5 jugs".
func plural(n float64, thing string) string {
	n = math.Round(n*10) / 10
	s := strconv.FormatFloat(n, 'f', -1, 64) + " " + thing
	if n != 1 {
		s += "s"
	}
	return s
}

// checkLiquid refuses a temperature that no bath of water has.
func checkLiquid(what string, c units.Temperature, sys sysText) error {
	if c <= 0 || c >= 100 {
		return refuse("not-liquid", "%s of %s is not that of a bath of water: between 32 and 212 °F (0 and 100 °C); read it again", what, sys.temp(c))
	}
	return nil
}

// checkTime refuses a span of nothing, or one that nobody ran.
func checkTime(what string, s, most units.Span, sys sysText) error {
	if s <= 0 {
		return refuse("missing", "how long was the %s? Give it like 15min", what)
	}
	if s > most {
		return refuse("input", "a %s of %s is not believable: at most %s; check the unit", what, sys.span(s), sys.span(most))
	}
	return nil
}

func suffix(label, s string) string {
	if s == "" {
		return ""
	}
	return fmt.Sprintf("%s%s", label, s)
}
