package chem

import (
	"fmt"

	"bathside/internal/units"
)

// Chance is whether a whole charge at most brings a bath to a pH.
type Chance int

// In nine cases out of ten or more it does Surely, in one or less it does Not.
const (
	Not Chance = iota
	Perhaps
	Surely
)

func (c Chance) String() string { return [...]string{"no", "perhaps", "surely"}[c] }

// Plan is how much soap brings a bath to a pH.
type Plan struct {
	Target  units.PH
	Reaches Chance
	Litres  Range[units.Volume] // what may do, likely does and surely does; a Charge at most, even where that is not enough
	Charge  units.Volume
	Full    Range[units.PH] // what it would read with a whole charge

	now   units.PH
	known bool
}

// Plan is the least soap that brings a bath to a target, at the temperature it
// has now.
func (b Belief) Plan(now Bath, target units.PH) (Plan, error) {
	o, err := b.outlook(now)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Target: target, Charge: now.Charge(), Full: o.after(now.Charge()), now: now.PH, known: b.known}
	switch {
	case p.Full.Low >= target:
		p.Reaches = Surely
	case p.Full.High >= target:
		p.Reaches = Perhaps
	}
	p.Litres = Range[units.Volume]{
		Low:  o.least(target, func(r Range[units.PH]) units.PH { return r.High }),
		Mid:  o.least(target, func(r Range[units.PH]) units.PH { return r.Mid }),
		High: o.least(target, func(r Range[units.PH]) units.PH { return r.Low }),
	}
	return p, nil
}

// least is the least soap with which a part of the range reaches a target: a
// whole charge where none does. It is good to 1/1000 of a charge.
func (o outlook) least(target units.PH, part func(Range[units.PH]) units.PH) units.Volume {
	if part(o.after(0)) >= target {
		return 0
	}
	none, some := 0.0, 1.0
	if part(o.after(o.bath.Charge())) < target {
		return o.bath.Charge()
	}
	for some-none > 1e-3 {
		half := (none + some) / 2
		if part(o.after(o.bath.Charge()*units.Volume(half))) >= target {
			some = half
		} else {
			none = half
		}
	}
	return o.bath.Charge() * units.Volume(some)
}

// Say is the plan as a crew is told. While the soap type is unknown it is never
// a single number.
func (p Plan) Say(sys units.System) string {
	some := "" // a drop may do where the reading itself is in doubt
	if p.Litres.Low > 0 {
		some = sys.Volume(p.Litres.Low)
	}
	full := fmt.Sprintf("%.2f to %.2f", float64(p.Full.Low), float64(p.Full.High))
	if p.known {
		full = fmt.Sprintf("about %.2f", float64(p.Full.Mid))
	}
	switch {
	case p.now >= p.Target:
		return fmt.Sprintf("it reads %.2f, at or above %.2f: add nothing", float64(p.now), float64(p.Target))
	case p.Reaches == Not:
		return fmt.Sprintf("a full charge would reach only %s: drain and refill", full)
	case p.Reaches == Perhaps && some == "":
		return fmt.Sprintf("perhaps; a full charge of %s would reach %s", sys.Volume(p.Charge), full)
	case p.Reaches == Perhaps:
		return fmt.Sprintf("perhaps, with %s or more; a full charge of %s would reach %s", some, sys.Volume(p.Charge), full)
	case some == "":
		return fmt.Sprintf("up to %s bring it to %.2f", sys.Volume(p.Litres.High), float64(p.Target))
	}
	return fmt.Sprintf("%s to %s bring it to %.2f", some, sys.Volume(p.Litres.High), float64(p.Target))
}
