package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Bath is a bath as it was last read.
type Bath struct {
	Sample
	U       float64 // standard uncertainty of its pH; 0 counts as 0.06
	Volume  units.Volume
	Ratio   float64 // parts of water to 1 of the product
	Charged float64 // the soap put in and not carried out, over a first dose; 0 counts as 1
}

// singleU is of one reading: all of Budget.
const singleU = 0.060

// Charge is the product in a whole bath freshly made.
func (b Bath) Charge() units.Volume { return b.Volume / units.Volume(b.Ratio+1) }

func (b Bath) check() error {
	switch {
	case !(b.Volume > 0 && b.Volume <= 5000):
		return fmt.Errorf("%s is no bath: give its volume, like 240L", units.SI.Text(b.Volume))
	case !(b.Ratio >= 1 && b.Ratio <= 1000):
		return errRatio(b.Ratio)
	case !(b.Charged >= 0 && b.Charged <= 20):
		return fmt.Errorf("soap of %g first doses is not believable: give 0 to 20", b.Charged)
	case !(b.U >= 0 && b.U <= 2):
		return errU(b.U)
	}
	return b.Sample.check()
}

func errU(u float64) error {
	return fmt.Errorf("an uncertainty of %g pH is none of a reading: give 0 to 2", u)
}

func errRatio(r float64) error {
	return fmt.Errorf("a ratio of %g to 1 is not one for a bath: 1 to 1000 are allowed", r)
}

// checkAdded refuses what was reckoned for no bath: nothing is said of more
// than a whole charge.
func checkAdded(b Bath, add units.Volume) error {
	if !(add >= 0) {
		return fmt.Errorf("%s of soap cannot be added: give 0 or more", units.SI.Text(add))
	}
	if charge := b.Charge(); add > charge*(1+1e-9) {
		return fmt.Errorf("%s is more soap than a whole new charge of %s: drain and refill instead", units.SI.Text(add), units.SI.Text(charge))
	}
	return nil
}

// A pour is a bath as it is and the product that goes into it.
type pour struct {
	now, product Mix
	bath         units.Volume
	weight       float64
}

// after is what the bath reads at a temperature when so much was added.
func (p pour) after(add units.Volume, t units.Temperature) (units.PH, error) {
	s, err := Solve(p.now.Blend(p.bath, p.product, add), t)
	return s.PH, err
}

// pourOf is a bath made of fresh, as it was last read. What used it up counts
// as strong acid.
func pourOf(fresh Mix, b Bath) (pour, error) {
	charged := b.Charged
	if charged == 0 {
		charged = 1
	}
	now, err := fresh.stronger(charged, b.Sample)
	return pour{now, Mix{}.Plus(fresh, b.Ratio+1), b.Volume, 1}, err
}

func (c cell) now(b Bath) (Mix, error) {
	p, err := pourOf(c.fresh, b)
	return p.now, err
}

func (c cell) pour(b Bath) (pour, error) {
	p, err := pourOf(c.fresh, b)
	p.weight = math.Exp(c.odds)
	return p, err
}

// Effect is what a bath of a plain soap of family f would read when so much was
// added, and what with a whole charge. The family has to be known.
func (f Family) Effect(first Sample, now Bath, add units.Volume) (after, full units.PH, err error) {
	if !f.Known() {
		return 0, 0, fmt.Errorf("one number cannot be told while the soap type is unknown: name the type, or ask for a range")
	}
	if err := first.check(); err != nil {
		return 0, 0, err
	}
	if err := now.check(); err != nil {
		return 0, 0, err
	}
	if err := checkAdded(now, add); err != nil {
		return 0, 0, err
	}
	m, err := f.fresh(first)
	if err != nil {
		return 0, 0, err
	}
	p, err := pourOf(m, now)
	if err != nil {
		return 0, 0, err
	}
	if after, err = p.after(add, now.At); err != nil {
		return 0, 0, err
	}
	full, err = p.after(now.Charge(), now.At)
	return after, full, err
}
