// Package chem reckons the pH of a warm alkaline bath: what a mix reads, what
// a reading would be at another temperature, how strong the bath is, what more
// soap would do, and what a meter's calibration is worth.
//
// It is water with carbonate and silicate, borate and phosphate; it knows no
// sequestrants, no amines and no soil but strong acid. It measures nothing,
// keeps no state and reads no clock.
package chem

import (
	"errors"
	"fmt"

	"bathside/internal/units"
)

// Mix is what is dissolved, in moles to the kilogram of water.
type Mix struct {
	Sodium     float64 // all alkali, as equivalents; potassium counts the same
	Acid       float64 // strong acid, as equivalents: most soil acts like it
	Carbon     float64 // in all forms, from carbon dioxide to carbonate
	Silicon    float64
	Boron      float64
	Phosphorus float64
}

// Plus is m with times as much of n in it.
func (m Mix) Plus(n Mix, times float64) Mix {
	return Mix{
		Sodium:     m.Sodium + times*n.Sodium,
		Acid:       m.Acid + times*n.Acid,
		Carbon:     m.Carbon + times*n.Carbon,
		Silicon:    m.Silicon + times*n.Silicon,
		Boron:      m.Boron + times*n.Boron,
		Phosphorus: m.Phosphorus + times*n.Phosphorus,
	}
}

// Blend is what comes of mixing a volume v of m with w of n. Volumes stand for
// masses of water: a bath is thin enough for that.
func (m Mix) Blend(v units.Volume, n Mix, w units.Volume) Mix {
	all := float64(v + w)
	return Mix{}.Plus(m, float64(v)/all).Plus(n, float64(w)/all)
}

// Where the model holds. Above WarnIonic it has been compared with nothing but
// itself; above MostIonic it refuses.
const (
	Coldest, Hottest = units.Temperature(0), units.Temperature(80)
	WarnIonic        = 0.2
	MostIonic        = 0.5
)

// ErrNoRoot says that no pH from 0 to 14.8 balances the charges of a mix, or
// that no amount does so at a pH.
var ErrNoRoot = errors.New("the charges of this mix do not balance: check the pH, and the amounts in mol per kg of water")

// ErrTooStrong says that a mix is beyond the model.
var ErrTooStrong = fmt.Errorf("this mix is too strong to reckon with: its ionic strength is above %.1f; check the amounts, in mol per kg of water", MostIonic)

// check refuses a mix or a temperature that the model knows nothing of.
func (m Mix) check(t units.Temperature) error {
	if !(t >= Coldest && t <= Hottest) {
		return fmt.Errorf("%s is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)", units.SI.Temp(t))
	}
	for _, x := range []float64{m.Acid, m.Carbon, m.Silicon, m.Boron, m.Phosphorus, m.Sodium} {
		if !(x >= 0 && x <= 10) {
			return fmt.Errorf("an amount of %g mol per kg is none of a bath: give 0 to 10", x)
		}
	}
	return nil
}
