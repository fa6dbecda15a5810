package chem

import "math"

// Trust is what a reading rests on. The zero Trust is Unchecked.
type Trust int

// What a reading may rest on.
const (
	Unchecked  Trust = iota // the meter was not checked in the last days
	Checked                 // one dip within 0.1
	Calibrated              // two buffers or more
	Strip                   // no meter: a strip read to 0.5
	Failed                  // the meter failed, and it has not been put right
)

// String is the trust in the words of the crew.
func (t Trust) String() string {
	switch t {
	case Calibrated:
		return "calibrated"
	case Checked:
		return "checked"
	case Strip:
		return "strip"
	case Failed:
		return "failed its check"
	}
	return "not checked"
}

// Standard uncertainties in pH. All are judgement, none is measured.
const (
	checkedU = 0.07 // a dip within 0.1: the ruling of a panel of the trade

	// Two people with two meters: AOAC 973.41 has 0.10 to 0.20 between
	// laboratories. A meter that nobody checked is taken as no better.
	strangerU = 0.14
)

var (
	// stripU: read to 0.5, so that a quarter either way is as likely.
	stripU = 0.25 / math.Sqrt(3)

	// driftU is what makes a checked reading an unchecked one.
	driftU = math.Sqrt(strangerU*strangerU - checkedU*checkedU)
)

// U is the standard uncertainty of one reading, in pH: 0.060 calibrated, 0.07
// checked, 0.14 unchecked, 0.144 by strip. After a failed check it is infinite.
func (t Trust) U() float64 {
	switch t {
	case Calibrated:
		return Single()
	case Checked:
		return checkedU
	case Strip:
		return stripU
	case Failed:
		return math.Inf(1)
	}
	return strangerU
}

// Standing is where a reading comes from, as far as it matters when it is
// compared with another. The zero Standing is a meter that nobody knows.
type Standing struct {
	Meter       string // as it is marked; empty where it is not known
	Trust       Trust
	Calibration uint64 // the check or calibration that it rests on; 0 for none
}

// Difference is the standard uncertainty of the difference of two readings, in
// pH, both at one temperature: what is due to restating one of them is to be
// added in quadrature. What the two share cancels. It is 0.058 for one meter
// and one calibration, 0.073 when it was calibrated between, 0.198 for two
// meters and 0.204 for two strips.
//
// An unchecked reading by the same meter has drifted besides. When two of them
// rest on the same calibration the drift up to the first is in both, and only
// that between them counts. Between two meters drift is in the 0.14 of each.
func Difference(a, b Standing) float64 {
	u := math.Hypot(a.alone(), b.alone())
	switch {
	case !a.sameMeter(b):
	case a.Calibration == b.Calibration:
		u = math.Sqrt2 * together(PerReading)
	default:
		u = math.Sqrt2 * together(PerReading, PerCalibration)
	}
	for range drifts(a, b) {
		u = math.Hypot(u, driftU)
	}
	return u
}

// alone is the part of a reading that has nothing in common with one by
// another meter.
func (s Standing) alone() float64 {
	if s.Trust == Strip || s.Trust == Failed {
		return s.Trust.U()
	}
	return strangerU
}

// sameMeter reports whether errors of the meter cancel. Strips and failed
// meters have none that can be trusted to stay.
func (s Standing) sameMeter(o Standing) bool {
	steady := func(t Trust) bool { return t != Strip && t != Failed }
	return s.Meter != "" && s.Meter == o.Meter && steady(s.Trust) && steady(o.Trust)
}

// drifts counts how often drift comes into the difference.
func drifts(a, b Standing) int {
	if !a.sameMeter(b) {
		return 0
	}
	n := 0
	for _, s := range []Standing{a, b} {
		if s.Trust == Unchecked {
			n++
		}
	}
	if a.Calibration == b.Calibration {
		n = min(n, 1)
	}
	return n
}
