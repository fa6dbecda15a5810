package units

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// unknown is printed for NaN and infinities: no instrument showed them.
const unknown = "not known"

// Text returns q with its unit, rounded the way the trade reads it: "1.5 gal",
// "122 °F", "1 h 30 min". q is a [Quantity], a time.Duration or anything that
// fmt prints. NaN and infinities are "not known"; -0 is 0.
func (sys System) Text(q any) string {
	switch q := q.(type) {
	case Span:
		return q.String()
	case time.Duration:
		return SpanOf(q).String()
	case Power:
		return powerText(q)
	}
	if k, x := kindAndValue(q); k != nil {
		f := k.face(sys)
		return withUnit(f.number(x), f.unit)
	}
	return plainText(q)
}

// Number returns q without its unit, for the columns of a table: rounded as
// Text does it, but a Span in minutes and a Power in kilowatts.
func (sys System) Number(q any) string {
	if k, x := kindAndValue(q); k != nil {
		return k.face(sys).number(x)
	}
	return plainText(q)
}

// Unit returns the name of the unit in which Number shows q, for the head of
// a column. It is empty for pH and plain numbers.
func (sys System) Unit(q any) string {
	if k, _ := kindAndValue(q); k != nil {
		return k.face(sys).unit.name
	}
	return ""
}

// kindAndValue returns the kind of q and its stored value; nil for what has
// no unit.
func kindAndValue(q any) (*kind, float64) {
	switch q := q.(type) {
	case Volume:
		return volumes, float64(q)
	case Temperature:
		return temperatures, float64(q)
	case Delta:
		return deltas, float64(q)
	case Span:
		return spans, float64(q)
	case time.Duration:
		return spans, q.Seconds()
	case Mass:
		return masses, float64(q)
	case Length:
		return lengths, float64(q)
	case Area:
		return areas, float64(q)
	case Power:
		return powers, float64(q)
	case Flow:
		return flows, float64(q)
	case Potential:
		return potentials, float64(q)
	}
	return nil, 0
}

// number returns the stored value x in the unit of the face, rounded.
func (f face) number(x float64) string {
	return rounded(f.unit.shown(x), f.step, f.decimals)
}

// rounded prints x to the nearest step with so many decimals; -1 prints as
// many as are needed.
func rounded(x, step float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return unknown
	}
	per := math.Round(1 / step) // a whole number, so that 10.1 stays 10.1
	if n := math.Round(x * per); !math.IsInf(n, 0) {
		x = n/per + 0 // -0 becomes 0
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// withUnit joins a number and its unit, unless the number is not known.
func withUnit(number string, u *unit) string {
	if number == unknown {
		return unknown
	}
	return number + " " + u.name
}

// powerText prints watts below a kilowatt: "350 W", "6 kW".
func powerText(p Power) string {
	if w := math.Round(math.Abs(float64(p))); w < 1000 {
		return withUnit(rounded(float64(p), 1, -1), watt)
	}
	return withUnit(rounded(p.KW(), 0.1, -1), kilowatt)
}

// plainText prints what has no unit.
func plainText(q any) string {
	if x, ok := q.(float64); ok {
		return rounded(x, 0.01, -1)
	}
	return fmt.Sprint(q)
}

// String returns the pH to 0.01: "10.24".
func (p PH) String() string { return rounded(float64(p), 0.01, 2) }
