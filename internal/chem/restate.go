package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Sample is a pH as it was read, and how warm the liquid was.
type Sample struct {
	PH units.PH
	At units.Temperature
}

// What a soap of unknown type does: the middle of the families and their
// spread, in pH per kelvin.
const (
	anySlope  = -0.016
	anySlopeU = 0.0055
)

// modelU is what the model itself may be off in a shift of one kelvin: 0.015 in
// 25 K, its largest error against a measured buffer (phosphate, IUPAC 2002).
const modelU = 0.015 / 25

// Restate is what a bath that reads ph at one temperature would read at
// another, and the standard uncertainty u of the shift alone. It takes the bath
// for a plain one of family f, whose strength is known to a factor of two.
// Without a family it reckons with the average of all. Where to is at it gives
// ph and 0.
func Restate(f Family, ph units.PH, at, to units.Temperature) (restated units.PH, u float64, err error) {
	read := Sample{ph, at}
	if err := read.check(); err != nil {
		return 0, 0, err
	}
	if err := (Mix{}).check(to); err != nil {
		return 0, 0, err
	}
	if to == at {
		return ph, 0, nil
	}
	if !f.Known() {
		restated, u := Slope{anySlope, anySlopeU}.Restate(ph, at, to)
		return restated, u, nil
	}
	m, err := f.fresh(read)
	if err != nil {
		return 0, 0, err
	}
	s, err := Solve(m, to)
	if err != nil {
		return 0, 0, err
	}
	return s.PH, math.Hypot(m.spread(s.PH, f.sigma(), read, to), modelU*float64(to-at)), nil
}

// spread is how far m made weaker or stronger by e^sigma departs from ph at a
// temperature, on the average of the two.
func (m Mix) spread(ph units.PH, sigma float64, read Sample, to units.Temperature) float64 {
	sum, n := 0.0, 0.0
	for _, z := range []float64{-sigma, sigma} {
		other, err := m.stronger(math.Exp(z), read)
		if err != nil {
			continue
		}
		if s, err := Solve(other, to); err == nil {
			sum, n = sum+math.Abs(float64(s.PH-ph)), n+1
		}
	}
	return sum / max(n, 1)
}

func (s Sample) check() error {
	if err := (Mix{}).check(s.At); err != nil {
		return err
	}
	if !(s.PH >= 0 && s.PH <= 14) {
		return fmt.Errorf("a pH of %.2f is outside 0 to 14: read it again", float64(s.PH))
	}
	return nil
}

// Slope is how the pH of a bath goes with temperature, and the standard
// uncertainty of that, both per kelvin.
type Slope struct{ PerK, U float64 }

// Restate is Restate along a straight line.
func (s Slope) Restate(ph units.PH, at, to units.Temperature) (restated units.PH, u float64) {
	dT := float64(to - at)
	return ph + units.PH(s.PerK*dT), s.U * math.Abs(dT)
}

const (
	pairU      = 0.058 // of the difference of two readings by one meter: Difference
	leastApart = 10.0  // kelvin
)

// A bath's own slope is flatter later on than the pair shows, because it falls
// as the soap is used up and is less steep hot than cold: by ownFlatter on the
// average of Families, first read at 50 °C from pH 9.8 to 11 and cooled to 22,
// then 0 to 0.5 down from 35 to 55 °C; ownDrift is the spread about that.
const (
	ownFlatter = 0.004
	ownDrift   = 0.003
)

// OwnSlope is a bath's own slope for the readings to come, from its first
// reading and one of the same cup after it cooled. [Belief.LearnPair] with
// [Belief.Restate] makes more of the pair: it knows that the slope bends.
func OwnSlope(hot, cool Sample) (Slope, error) {
	for _, s := range []Sample{hot, cool} {
		if err := s.check(); err != nil {
			return Slope{}, err
		}
	}
	dT := float64(hot.At - cool.At)
	if !(dT >= leastApart) {
		a, b := units.SI.TempPair(hot.At, cool.At)
		return Slope{}, fmt.Errorf("%s and %s do not make a pair: let the cup cool by at least 10 °C (18 °F) and read it again", a, b)
	}
	return Slope{
		PerK: float64(hot.PH-cool.PH)/dT + ownFlatter,
		U:    math.Hypot(pairU/dT, ownDrift),
	}, nil
}
