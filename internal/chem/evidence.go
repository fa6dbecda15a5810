package chem

import (
	"errors"
	"math"
	"slices"

	"bathside/internal/units"
)

// riseU is of the rise that two readings show with the meter recalibrated
// between them (testdata/chem/difference_power.csv); riseModelU of the rise foretold, mostly from
// the first reading's own error.
const (
	riseU      = 0.073
	riseModelU = 0.02
)

// farthest is how many times its uncertainty a finding may be off before it is
// all the same: no single wild reading settles what a soap is.
const farthest = 4

// errNothing says that no soap under consideration can be told by a finding.
var errNothing = errors.New("no soap that gives the first reading gives this one: read it again, or check the soap type")

// Topup is soap that went into a bath, and what it did.
type Topup struct {
	Before Bath
	Added  units.Volume
	After  Sample  // when it had mixed
	U      float64 // standard uncertainty of the rise; 0 counts as 0.073
}

func (t Topup) check() error {
	if err := t.Before.check(); err != nil {
		return err
	}
	if err := checkAdded(t.Before, t.Added); err != nil {
		return err
	}
	if !(t.U >= 0 && t.U <= 2) {
		return errU(t.U)
	}
	return t.After.check()
}

// Learn is b after a top-up.
func (b Belief) Learn(t Topup) (Belief, error) {
	if err := t.check(); err != nil {
		return b, err
	}
	u := t.U
	if u == 0 {
		u = riseU
	}
	u = math.Hypot(u, riseModelU)
	return b.weigh(func(c cell) (float64, error) {
		p, err := c.pour(t.Before)
		if err != nil {
			return 0, err
		}
		ph, err := p.after(t.Added, t.After.At)
		return float64(t.After.PH-ph) / u, err
	})
}

// LearnPair is b after the pair of the first reading: hot, and from the same
// cup when it had cooled.
func (b Belief) LearnPair(hot, cool Sample) (Belief, error) {
	if _, err := OwnSlope(hot, cool); err != nil {
		return b, err
	}
	u := math.Hypot(pairU, modelU*float64(hot.At-cool.At))
	return b.weigh(func(c cell) (float64, error) {
		x, err := c.fresh.shift(hot, cool.At)
		return (float64(cool.PH-hot.PH) - x) / u, err
	})
}

// dropTestU is the relative uncertainty of a drop test, from memory; between
// two strengths of the grid there is more.
const dropTestU = 0.05

// LearnTitration is b after a drop test of the bath, which gave a reading at
// about the same time.
func (b Belief) LearnTitration(now Bath, found Alkalinity) (Belief, error) {
	if err := now.check(); err != nil {
		return b, err
	}
	return b.weigh(func(c cell) (float64, error) {
		m, err := c.now(now)
		if err != nil {
			return 0, err
		}
		step := 2 * gridSigmas * c.family.sigma() / (gridCells - 1)
		part := math.Hypot(dropTestU, step/math.Sqrt(12))
		off, err := found.off(m, pinkEnd, found.P, part)
		if err != nil || found.T == 0 {
			return off, err
		}
		more, err := found.off(m, totalEnd, found.T, part)
		return math.Hypot(off, more), err
	})
}

// off is by how many times its uncertainty a found alkalinity is off from that
// of m.
func (a Alkalinity) off(m Mix, end units.PH, found, part float64) (float64, error) {
	x, err := m.alkalinity(end)
	return (found - x) / math.Hypot(part*x, a.Drop), err
}

// weigh is b with every cell made less likely by how far a finding is off from
// what the cell foretells, in uncertainties. A cell that foretells nothing is
// as far off as can be.
func (b Belief) weigh(off func(cell) (float64, error)) (Belief, error) {
	told := false
	cells := slices.Clone(b.cells)
	for i, c := range cells {
		z, err := off(c)
		if err != nil {
			z = farthest
		}
		told = told || err == nil
		z = min(math.Abs(z), farthest)
		cells[i].odds -= z * z / 2
	}
	if !told {
		return b, errNothing
	}
	return Belief{b.known, levelled(cells)}, nil
}
