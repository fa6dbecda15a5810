package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Belief is what is held likely of the soap in a bath: which family, and how
// strong beside one that gives the same first reading. It is a value; learning
// gives another. The zero Belief foretells nothing.
type Belief struct {
	known bool
	cells []cell
}

// A cell is one soap that the bath may be made of.
type cell struct {
	family Family
	factor float64 // its strength, over that of the family's plain bath
	fresh  Mix
	odds   float64 // logarithm of how likely it is, to a constant
}

const (
	strengthSigma = 0.7 // of the logarithm of strength: a factor of two
	toldSigma     = 0.2 // the same with the builder from a data sheet, from memory
	gridSigmas    = 2.0
	gridCells     = 13 // strengths of a family
)

func (f Family) sigma() float64 {
	if f.told {
		return toldSigma
	}
	return strengthSigma
}

// NewBelief is what one knows before anything happened to a bath but its first
// reading: the family, or none, and that a bath may be twice as strong as its
// pH tells. A soap that cannot give the reading is left out.
func NewBelief(f Family, first Sample) (Belief, error) {
	if err := first.check(); err != nil {
		return Belief{}, err
	}
	if f.Known() {
		cells, err := f.cells(first)
		return Belief{known: true, cells: cells}, err
	}
	var b Belief
	for _, f := range Families {
		if cells, err := f.cells(first); err == nil {
			b.cells = append(b.cells, cells...)
		}
	}
	if len(b.cells) == 0 {
		return b, fmt.Errorf("no soap bath reads pH %.2f at %s: read it again", float64(first.PH), units.SI.Temp(first.At))
	}
	b.cells = levelled(b.cells)
	return b, nil
}

// cells are the soaps of a family that give a first reading. Together they
// weigh 1.
func (f Family) cells(first Sample) ([]cell, error) {
	plain, err := f.fresh(first)
	if err != nil {
		return nil, err
	}
	if f.Builder == "" {
		return []cell{{family: f, factor: 1, fresh: plain}}, nil
	}
	var cells []cell
	for i := range gridCells {
		z := gridSigmas * (2*float64(i)/(gridCells-1) - 1)
		factor := math.Exp(z * f.sigma())
		if m, err := plain.stronger(factor, first); err == nil {
			cells = append(cells, cell{f, factor, m, -z * z / 2})
		}
	}
	return levelled(cells), nil
}

// levelled sets the odds so that all weigh 1 together.
func levelled(cells []cell) []cell {
	most, sum := math.Inf(-1), 0.0
	for _, c := range cells {
		most = max(most, c.odds)
	}
	for _, c := range cells {
		sum += math.Exp(c.odds - most)
	}
	for i := range cells {
		cells[i].odds -= most + math.Log(sum)
	}
	return cells
}

// Known reports whether the family was given. Where it was not, no single
// number is to be told.
func (b Belief) Known() bool { return b.known }

// Families gives how likely each family is; together they are 1.
func (b Belief) Families() map[string]float64 {
	all := make(map[string]float64)
	for _, c := range b.cells {
		all[c.family.Name] += math.Exp(c.odds)
	}
	return all
}

// Strength is the bath's builder over that of a plain bath of its family with
// the same first reading.
func (b Belief) Strength() Range[float64] {
	all := make([]weighted, len(b.cells))
	for i, c := range b.cells {
		all[i] = weighted{c.factor, math.Exp(c.odds)}
	}
	return rangeOf[float64](all)
}

// Alkalinity is the total alkalinity of the fresh bath, as a drop test to pH
// 4.5 would find it, in equivalents to the litre.
func (b Belief) Alkalinity() Range[float64] {
	var all []weighted
	for _, c := range b.cells {
		if x, err := c.fresh.alkalinity(totalEnd); err == nil {
			all = append(all, weighted{x, math.Exp(c.odds)})
		}
	}
	return rangeOf[float64](all)
}

// Restate is what the bath would read at another temperature as far as it is
// known, and the standard uncertainty of the shift. After a pair, a drop test
// or a few top-ups it is narrower than the function Restate.
func (b Belief) Restate(read Sample, to units.Temperature) (restated units.PH, u float64, err error) {
	if err := read.check(); err != nil {
		return 0, 0, err
	}
	if err := (Mix{}).check(to); err != nil {
		return 0, 0, err
	}
	if to == read.At {
		return read.PH, 0, nil
	}
	sum, first, second := 0.0, 0.0, 0.0
	for _, c := range b.cells {
		if x, err := c.fresh.shift(read, to); err == nil {
			w := math.Exp(c.odds)
			sum, first, second = sum+w, first+w*x, second+w*x*x
		}
	}
	if sum == 0 {
		return 0, 0, fmt.Errorf("no soap known here reads pH %.2f at %s: read it again", float64(read.PH), units.SI.Temp(read.At))
	}
	mean := first / sum
	u = math.Hypot(math.Sqrt(max(0, second/sum-mean*mean)), modelU*float64(to-read.At))
	return read.PH + units.PH(mean), u, nil
}

// shift is how much more m reads at another temperature, once it is soured to a
// reading.
func (m Mix) shift(read Sample, to units.Temperature) (float64, error) {
	now, err := m.soured(read)
	if err != nil {
		return 0, err
	}
	s, err := Solve(now, to)
	return float64(s.PH - read.PH), err
}
