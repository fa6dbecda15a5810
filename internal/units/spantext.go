package units

import (
	"fmt"
	"math"
	"strings"
)

// String returns the span in its two largest units: seconds are printed up to
// an hour, minutes up to two days, hours beyond. "20 s", "4 min 30 s",
// "1 h 30 min", "2 d 6 h". NaN and infinities are "not known".
func (s Span) String() string {
	x := math.Abs(float64(s))
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return unknown
	}
	text := spanText(x)
	if s < 0 && !strings.HasPrefix(text, "0") {
		return "-" + text
	}
	return text
}

func spanText(x float64) string {
	seconds, minutes, hours := math.Round(x), math.Round(x/60), math.Round(x/3600)
	switch {
	case seconds < 3600:
		return twoParts(seconds, 60, "min", "s")
	case minutes < 48*60:
		return twoParts(minutes, 60, "h", "min")
	}
	return twoParts(hours, 24, "d", "h")
}

// twoParts prints n small units, per of which make a large one. A part of
// zero is left out.
func twoParts(n, per float64, large, small string) string {
	whole, rest := math.Floor(n/per), math.Mod(n, per)
	switch {
	case whole == 0:
		return fmt.Sprintf("%.0f %s", rest, small)
	case rest == 0:
		return fmt.Sprintf("%.0f %s", whole, large)
	}
	return fmt.Sprintf("%.0f %s %.0f %s", whole, large, rest, small)
}

// About returns the span as an estimate is told: "about 6 min", "about 8 h".
// The steps are 1 min up to an hour, 10 min up to six, then hours, then days.
// A negative span is none: "no time".
func (s Span) About() string {
	x := float64(s)
	step := 60.0
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return unknown
	case x <= 0:
		return "no time"
	case x < 30:
		return "under 1 min"
	case x >= 48*3600:
		step = 24 * 3600
	case x >= 6*3600:
		step = 3600
	case x >= 3600:
		step = 600
	}
	return "about " + Span(math.Round(x/step)*step).String()
}
