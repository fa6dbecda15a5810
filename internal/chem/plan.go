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
	target, charge := fmt.Sprintf("%.2f", float64(p.Target)), sys.Volume(p.Charge)
	some := "" // a drop may do where the reading itself is in doubt
	if p.Litres.Low > 0 {
		some = sys.Volume(p.Litres.Low)
	}
	switch {
	case p.now >= p.Target:
		return fmt.Sprintf("it reads %.2f, at or above %s: add nothing", float64(p.now), target)
	case p.Reaches == Not:
		return fmt.Sprintf("a full charge would reach only %s: drain and refill", p.full())
	case p.Reaches == Perhaps && p.known && p.Full.Mid >= p.Target:
		may := "a full charge of " + charge + " may not"
		if some != "" {
			may = some + " may, " + may
		}
		return fmt.Sprintf("about %s would likely bring it to %s (%s)", sys.Volume(p.Litres.Mid), target, may)
	case p.Reaches == Perhaps && some == "":
		return fmt.Sprintf("perhaps; a full charge of %s would reach %s", charge, p.full())
	case p.Reaches == Perhaps:
		return fmt.Sprintf("perhaps %s or more would bring it to %s; a full charge of %s would reach %s", some, target, charge, p.full())
	case some == "":
		return fmt.Sprintf("up to %s bring it to %s", sys.Volume(p.Litres.High), target)
	}
	return fmt.Sprintf("%s to %s bring it to %s", some, sys.Volume(p.Litres.High), target)
}

// full is what a whole charge would reach.
func (p Plan) full() string {
	if p.known {
		return fmt.Sprintf("about %.2f", float64(p.Full.Mid))
	}
	return fmt.Sprintf("%.2f to %.2f", float64(p.Full.Low), float64(p.Full.High))
}
