package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Solution is a mix at rest.
type Solution struct {
	PH    units.PH
	Ionic float64               // ionic strength, mol/kg
	Molal [speciesCount]float64 // mol/kg, by Species
	Gamma [speciesCount]float64 // activity coefficients, by Species; 0 for an acid that is not there
}

// Doubtful reports whether the mix is stronger than what the model has been
// held against.
func (s Solution) Doubtful() bool { return s.Ionic > WarnIonic }

// Solve gives the pH of a mix by balance of charge, at 1 atm and closed to the
// air. It is within 0.02 of the PHREEQC tables in testdata/chem up to an ionic
// strength of 0.1, borax apart, and of the measured buffers from 20 to 50 °C.
func Solve(m Mix, t units.Temperature) (Solution, error) {
	if err := m.check(t); err != nil {
		return Solution{}, err
	}
	k := at(t)
	b := balance{k: &k, mix: m, ladders: m.ladders()}
	return b.solve()
}

// SolveOpen is Solve for a mix that has come to rest with air that holds a
// pressure of carbon dioxide, in atm: 420e-6 outdoors. The carbon of m counts
// for nothing.
func SolveOpen(m Mix, t units.Temperature, air float64) (Solution, error) {
	m.Carbon = 0
	if err := m.check(t); err != nil {
		return Solution{}, err
	}
	if !(air >= 0 && air <= 1) {
		return Solution{}, fmt.Errorf("carbon dioxide at %g atm is none of air: give 0 to 1, 0.00042 outdoors", air)
	}
	k := at(t)
	b := balance{k: &k, mix: m, ladders: m.ladders()}
	b.ladders[0].open = air * tenTo(logKH(t.K()))
	return b.solve()
}

const (
	leastPH, mostPH = 0, 14.8
	settled         = 1e-10 // of ionic strength
	settledPH       = 1e-11
	balanced        = 1e-15 // of charge, mol/kg: as far as a sum of doubles shows it
	passes          = 50    // nine are enough for every case tried
)

// solve finds the pH at a guess of the ionic strength and then mends both, one
// step of Newton's to a pass: the ionic strength moves the pH but little.
func (b *balance) solve() (Solution, error) {
	ionic := (b.mix.Sodium + b.mix.Acid + 2*b.mix.Carbon) / 2
	b.ionic(ionic)
	ph, ok := falling(leastPH, mostPH, b.charge)
	if !ok {
		return Solution{}, ErrNoRoot
	}
	for range passes {
		q, was := b.charge(ph), ionic
		step := q / b.fall()
		ph += step
		b.fill(ph)
		ionic = b.strength()
		rests := math.Abs(step) < settledPH || math.Abs(q) < balanced
		if rests && math.Abs(ionic-was) < settled && ionic <= MostIonic {
			return Solution{units.PH(ph), ionic, b.molal, b.gamma}, nil
		}
		b.ionic(ionic)
	}
	return Solution{}, ErrTooStrong
}

// balance is a mix at an ionic strength and a pH.
type balance struct {
	k       *constants
	mix     Mix
	ladders [4]ladder

	gamma [speciesCount]float64
	step  [speciesCount]float64 // mol of a rung to one of the first, at h = 1
	molal [speciesCount]float64
}

// ionic sets the ionic strength, and with it every activity that counts. The
// activities stay at those of twice MostIonic beyond it.
func (b *balance) ionic(i float64) {
	now := b.k.activity(min(i, 2*MostIonic))
	for s := H; s <= X; s++ {
		b.gamma[s] = now.of(s)
	}
	b.step[OH] = b.k.k[OH] / b.gamma[OH]
	for i := range b.ladders {
		l := &b.ladders[i]
		if l.absent() {
			continue
		}
		for s := l.first; s <= l.last; s++ {
			b.gamma[s] = now.of(s)
			b.step[s] = b.k.k[s] * b.gamma[l.first] / b.gamma[s]
		}
	}
}

// fill sets every species at a pH.
func (b *balance) fill(ph float64) {
	h := tenTo(-ph)
	b.molal[H] = h / b.gamma[H]
	b.molal[OH] = b.step[OH] / h
	b.molal[Na], b.molal[X] = b.mix.Sodium, b.mix.Acid
	for i := range b.ladders {
		if l := &b.ladders[i]; !l.absent() {
			b.rungs(l, 1/h)
		}
	}
}

// charge is the sum of the charges at a pH. It falls as the pH rises: each
// ladder gives up hydrogen, [H+] falls and [OH-] rises. So there is one root.
func (b *balance) charge(ph float64) float64 {
	b.fill(ph)
	return b.sum()
}

// fall is how fast the charge falls with the pH, where it was filled last.
func (b *balance) fall() float64 {
	v := b.molal[H] + b.molal[OH]
	for i := range b.ladders {
		if l := &b.ladders[i]; !l.absent() {
			v += b.spread(l)
		}
	}
	return math.Ln10 * v
}

func (b *balance) sum() (q float64) {
	for s := range traits {
		q += traits[s].z * b.molal[s]
	}
	return q
}

// strength is the ionic strength of the species as they stand.
func (b *balance) strength() (i float64) {
	for s := range traits {
		z := traits[s].z
		i += z * z * b.molal[s] / 2
	}
	return i
}
