package chem

import (
	"math"

	"bathside/internal/units"
)

// Effect is what a bath would likely read, at the temperature it has now, when
// so much was added: over all soaps that it may be made of, and over what its
// last reading may be off. Nothing is told beyond a whole charge.
func (b Belief) Effect(now Bath, add units.Volume) (Range[units.PH], error) {
	o, err := b.outlook(now)
	if err != nil {
		return Range[units.PH]{}, err
	}
	if err := checkAdded(now, add); err != nil {
		return Range[units.PH]{}, err
	}
	return o.after(add), nil
}

// outlook is a bath as each soap would have it.
type outlook struct {
	bath  Bath
	pours []pour
	all   []weighted // room for after
}

// slight is a likelihood too small to move a range.
const slight = 1e-5

func (b Belief) outlook(now Bath) (outlook, error) {
	if err := now.check(); err != nil {
		return outlook{}, err
	}
	o := outlook{bath: now}
	for _, c := range b.cells {
		if math.Exp(c.odds) < slight {
			continue
		}
		p, err := c.pour(now)
		if err != nil {
			continue
		}
		if _, err := p.after(now.Charge(), now.At); err == nil {
			o.pours = append(o.pours, p)
		}
	}
	if len(o.pours) == 0 {
		return o, errNothing
	}
	o.all = make([]weighted, len(o.pours))
	return o, nil
}

// after is the range of what the bath reads when so much was added. The reading
// it starts from widens either side, as an independent error does.
func (o outlook) after(add units.Volume) Range[units.PH] {
	for i, p := range o.pours {
		ph, err := p.after(add, o.bath.At)
		if err != nil { // less soap than what outlook has tried
			ph = o.bath.PH
		}
		o.all[i] = weighted{float64(ph), p.weight}
	}
	r := rangeOf[units.PH](o.all)
	u := o.bath.U
	if u == 0 {
		u = singleU
	}
	const tenth = 1.2816 // standard deviations from the middle to the last tenth
	r.Low = r.Mid - units.PH(math.Hypot(float64(r.Mid-r.Low), tenth*u))
	r.High = r.Mid + units.PH(math.Hypot(float64(r.High-r.Mid), tenth*u))
	return r
}
