package chem

import (
	"math"
	"slices"
)

// Class is how far an error of a reading is shared with other readings.
type Class int

// The classes.
const (
	PerReading     Class = iota // new each time
	PerCalibration              // the same until the meter is calibrated again
	PerBath                     // the same in all readings of one bath: it cancels in a difference
)

// Component is one source of error of a reading, with its standard uncertainty
// in pH.
type Component struct {
	Name  string
	U     float64
	Class Class
}

// Budget is what makes up the uncertainty of one reading by a handheld meter at
// about 50 °C and pH 10. It is type-B judgement, not measured: each limit that
// somebody judged likely is taken as a rectangle, and its half width divided by
// the root of 3.
var Budget = []Component{
	{"value of the pH 10 buffer (0.02 with k = 2)", 0.0100, PerCalibration},
	{"buffer aged, took up carbon dioxide or was carried over (0.03)", 0.0173, PerCalibration},
	{"isopotential point not at pH 7 (0.5 pH, 25 °C from buffer to bath)", 0.0242, PerCalibration},
	{"temperature probe (0.5 °C)", 0.0028, PerCalibration},
	{"liquid junction in warm alkaline soap (0.05)", 0.0289, PerBath},
	{"sodium error left in (0 to 0.04)", 0.0115, PerBath},
	{"electrode not yet as warm as the bath (0.05)", 0.0289, PerReading},
	{"repeatability and drift, read when stable within 0.05", 0.0289, PerReading},
	{"last digit shown (0.01)", 0.0029, PerReading},
}

// Single is the standard uncertainty of one reading by a meter just calibrated:
// all of Budget, about 0.060 pH.
func Single() float64 { return together(PerReading, PerCalibration, PerBath) }

// together adds the components of some classes in quadrature.
func together(classes ...Class) float64 {
	var u float64
	for _, c := range Budget {
		if slices.Contains(classes, c.Class) {
			u = math.Hypot(u, c.U)
		}
	}
	return u
}
