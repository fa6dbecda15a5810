package trend

import "math"

// MeterChart is a chart of single values with limits from their moving range:
// the dips of one meter into a check buffer.
type MeterChart struct {
	Centre, Low, High float64
	Enough            bool // there are dips enough to tell
	Changed           bool // the last dip lies outside
}

// leastDips could show a change. With fewer the last dip cannot lie outside
// limits that it widens itself: it is at most (n-1)²/n mean ranges off.
const leastDips = 5

// meterRepeat is the standard deviation below which no hand-held meter repeats
// itself, in pH: its last digit must not raise a signal. It is an assumption.
const meterRepeat = 0.02

// NewMeterChart charts dips, in order of time: what was read minus what the
// buffer is worth at its temperature. They should reach over calibrations, or
// start after one.
func NewMeterChart(dips []float64) MeterChart {
	c := MeterChart{Enough: len(dips) >= leastDips}
	if len(dips) == 0 {
		return c
	}
	centre, sigma := individuals(dips)
	half := 3 * max(sigma, meterRepeat)
	c.Centre, c.Low, c.High = centre, centre-half, centre+half
	last := dips[len(dips)-1]
	c.Changed = c.Enough && (last < c.Low || last > c.High)
	return c
}

// individuals is the centre of a chart of single values and their standard
// deviation by the mean moving range (NIST/SEMATECH e-Handbook 6.3.2.2).
func individuals(xs []float64) (centre, sigma float64) {
	const d2 = 1.128 // mean range of two in standard deviations, ibid. 6.3.2.1
	if len(xs) < 2 {
		return mean(xs), 0
	}
	var ranges float64
	for i, x := range xs[1:] {
		ranges += math.Abs(x - xs[i])
	}
	return mean(xs), ranges / float64(len(xs)-1) / d2
}

// Change is what the two charts say together.
type Change string

// The answers.
const (
	TooFew       Change = "too few readings or buffer checks to tell"
	BothQuiet    Change = "both quiet"
	BathChanged  Change = "the bath changed"
	MeterChanged Change = "the meter changed"
	OneChanged   Change = "the bath or the meter changed: check the meter in its buffer"
)

// Blame says what changed. A meter that signals is blamed first, whatever the
// bath does: calibrate, then read again.
func Blame(bath BathChart, meter MeterChart) Change {
	switch {
	case meter.Changed:
		return MeterChanged
	case bath.Changed && meter.Enough:
		return BathChanged
	case bath.Changed:
		return OneChanged
	case meter.Enough && len(bath.Points) > 0:
		return BothQuiet
	}
	return TooFew
}
