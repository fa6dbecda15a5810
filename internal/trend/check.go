package trend

import (
	"math"
	"slices"
)

// Verdict is what to do with a reading just typed.
type Verdict string

// The verdicts, from mild to grave. A reading is kept whatever they are.
const (
	InLine    Verdict = "in-line"
	ReadAgain Verdict = "read-again" // odd: rinse and read again
	Doubtful  Verdict = "doubtful"   // not for the trend unless confirmed
)

// Below these a reading as far off as this one is odd, or doubtful. At the
// first, one good reading in fifty is asked for again, and nine of ten that are
// off by 0.5 are found once there are five before.
const (
	oddP      = 0.02
	doubtfulP = 0.001
)

// Check is a reading held against those before it.
type Check struct {
	Verdict  Verdict
	Expected float64 // offset
	Low      float64 // in line is from Low to High
	High     float64
	Z        float64 // how far off, in standard deviations
	P        float64 // of a good reading so far off, to either side
}

// Check holds a reading against the fit, which must not contain it. The error
// is one sentence that says which figure is none of a reading.
func (f *Fit) Check(r Reading) (Check, error) {
	if err := r.check(); err != nil {
		return Check{}, err
	}
	return f.check(r), nil
}

func (f *Fit) check(r Reading) Check {
	x := f.row(r.Day, r.Loads)
	sd := math.Sqrt(f.cov.spread(x) + f.sigma2 + r.extra() + unruly*unruly)
	c := Check{Verdict: InLine, Expected: dot(x, f.mean)}
	half := f.t.quantile(1-oddP/2) * sd
	c.Low, c.High = c.Expected-half, c.Expected+half
	c.Z = (r.Offset - c.Expected) / sd
	c.P = 2 * f.t.tail(math.Abs(c.Z))
	switch {
	case c.P < doubtfulP:
		c.Verdict = Doubtful
	case c.P < oddP:
		c.Verdict = ReadAgain
	}
	return c
}

// confirms is how far apart two readings may be to confirm each other, in pH.
const confirms = 0.2

// Settle is what readings taken one after the other say together: their median
// once two agree within 0.2, as 9.80 and 9.60 do, or once there are three. Until then ok is false:
// rinse and read again.
func Settle(readings ...float64) (value float64, ok bool) {
	sorted := slices.Sorted(slices.Values(readings))
	n := len(sorted)
	if n < 2 || n == 2 && sorted[1]-sorted[0] > confirms+hair {
		return math.NaN(), false
	}
	return (sorted[(n-1)/2] + sorted[n/2]) / 2, true
}
