package heat

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Liquor is the water of a bath with its soap. Strength is the part of its
// volume that is detergent as bought, 0 to 1: 0.02 is 2 %.
type Liquor struct {
	Volume   units.Volume
	Strength float64
}

func (l Liquor) soap() units.Volume { return units.Volume(l.Strength * float64(l.Volume)) }

func liquor(volume, soap units.Volume) Liquor {
	if volume <= 0 {
		return Liquor{}
	}
	return Liquor{volume, float64(soap / volume)}
}

// Plus is l with m poured in: water has strength 0, the detergent itself 1.
func (l Liquor) Plus(m Liquor) Liquor { return liquor(l.Volume+m.Volume, l.soap()+m.soap()) }

// Dry is l after so much water has evaporated: the soap stays.
func (l Liquor) Dry(water units.Volume) Liquor { return liquor(l.Volume-water, l.soap()) }

// Less is l after so much of it went out on gear, was spilled or drained: the
// strength stays.
func (l Liquor) Less(v units.Volume) Liquor { return Liquor{max(0, l.Volume-v), l.Strength} }

// Pace is what steadily happens to a bath, a day. Strength is that of the
// make-up, 0 for water.
type Pace struct {
	Evaporation, CarryOut, MakeUp units.Volume
	Strength                      float64
}

// After is l at that pace for t, well mixed all along; empty is empty. It is the
// exact solution of the mass balance.
func (l Liquor) After(p Pace, t units.Span) Liquor {
	days := float64(t / day)
	grows := float64(p.MakeUp-p.Evaporation-p.CarryOut) * days / float64(l.Volume)
	if !(grows > -1) {
		return Liquor{}
	}
	u := days / float64(l.Volume) // the days, each over the volume that it had
	if grows != 0 {
		u *= math.Log1p(grows) / grows
	}
	thinned := float64(p.MakeUp-p.Evaporation) * u
	strength := l.Strength*math.Exp(-thinned) + float64(p.MakeUp)*p.Strength*u*decayed(thinned)
	return Liquor{l.Volume * units.Volume(1+grows), strength}
}

// Settles is the strength that a bath kept at its mark comes to in the end, with
// make-up of the strength of p. It is without end where nothing is carried out.
func (p Pace) Settles() float64 {
	return p.Strength * float64(p.Evaporation+p.CarryOut) / float64(p.CarryOut)
}

// Holds is the strength that make-up must have to keep a bath at that strength.
func (p Pace) Holds(strength float64) float64 {
	return strength * float64(p.CarryOut) / float64(p.Evaporation+p.CarryOut)
}

// decayed is (1 − e^−x)/x, which is 1 at 0.
func decayed(x float64) float64 {
	if x == 0 {
		return 1
	}
	return -math.Expm1(-x) / x
}

// Dose is what brings a bath to its mark and to a strength: first so much Drawn
// off, then Soap and Water poured in.
type Dose struct{ Drawn, Soap, Water units.Volume }

// Dose is what brings l up to the mark with that strength. Liquor is drawn off
// only where the soap would not fit in. A bath above its mark or stronger than
// asked for is refused in one sentence.
func (l Liquor) Dose(mark units.Volume, strength float64) (Dose, error) {
	room, soap := mark-l.Volume, units.Volume(strength)*mark-l.soap()
	switch {
	case !(strength >= 0 && strength < 1 && l.Volume >= 0 && mark >= least && mark <= most):
		return Dose{}, fmt.Errorf("a strength of %g in a bath of %s is none we can reckon with: write 0.02 for 2 %%", strength, units.SI.Text(mark))
	case !(room >= 0):
		return Dose{}, fmt.Errorf("a bath of %s is above its mark at %s: check the unit", units.SI.Text(l.Volume), units.SI.Text(mark))
	case !(soap >= 0):
		return Dose{}, fmt.Errorf("with water to the mark the bath is still at %.2f %%, above %.2f %%: add water only",
			100*float64(l.soap()/mark), 100*strength)
	case soap <= room:
		return Dose{Soap: soap, Water: room - soap}, nil
	}
	drawn := (soap - room) / units.Volume(1-l.Strength)
	return Dose{Drawn: drawn, Soap: room + drawn}, nil
}
