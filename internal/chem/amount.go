package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Amount is how much of unit, added to base, makes a mix of the given pH: the
// inverse of Solve. At a set pH and ionic strength the charges are linear in
// the amount, so that nothing but the ionic strength has to be searched for.
//
// It is negative where base is past that pH already: so much of unit is to be
// taken out, which is not the same as adding its opposite. Where unit is nearly
// neutral at that pH, as soda ash is in lye, there may be no amount or two.
func Amount(base, unit Mix, ph units.PH, t units.Temperature) (float64, error) {
	if err := base.check(t); err != nil {
		return 0, err
	}
	if !(ph >= leastPH && ph <= 14) {
		return 0, fmt.Errorf("a pH of %.2f is outside 0 to 14: read it again", float64(ph))
	}
	k := at(t)
	s := scale{ph: float64(ph)}
	s.have = balance{k: &k, mix: base, ladders: base.ladders()}
	s.more = balance{k: &k, mix: unit, ladders: unit.ladders()}
	return s.weigh((base.Sodium + base.Acid + 2*base.Carbon) / 2)
}

// scale holds a mix and what is added to it, at a pH.
type scale struct {
	ph         float64
	have, more balance
}

// weigh searches for the ionic strength by secants, from a guess.
func (s *scale) weigh(ionic float64) (float64, error) {
	was, wasOff := math.NaN(), math.NaN()
	for range passes {
		amount, makes := s.at(ionic)
		off := makes - ionic
		switch {
		case math.IsNaN(off) || math.IsInf(off, 0):
			return 0, ErrNoRoot
		case math.Abs(off) < settled && ionic > MostIonic:
			return 0, ErrTooStrong
		case math.Abs(off) < settled:
			return amount, nil
		}
		next := makes
		if slope := (off - wasOff) / (ionic - was); slope < 0 {
			next = ionic - off/slope
		}
		was, wasOff = ionic, off
		ionic = max(0, next)
	}
	return 0, ErrNoRoot
}

// at is the amount that balances the charges with the activities of an ionic
// strength, and the ionic strength that it makes.
func (s *scale) at(ionic float64) (amount, makes float64) {
	s.have.ionic(ionic)
	s.more.ionic(ionic)
	q := s.have.charge(s.ph)
	s.more.fill(s.ph)
	s.more.molal[H], s.more.molal[OH] = 0, 0 // the water is in have
	amount = -q / s.more.sum()
	return amount, s.have.strength() + amount*s.more.strength()
}
