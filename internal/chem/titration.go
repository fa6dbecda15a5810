package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Alkalinity is what a drop test found, in equivalents to the litre of bath.
type Alkalinity struct {
	P    float64 // to pH 8.3, where phenolphthalein loses its pink
	T    float64 // in all, to pH 4.5; 0 when nobody went on so far
	Drop float64 // one drop of acid: what P and T may be off by
}

// Where the indicators turn, and how warm a sample is by then.
const (
	pinkEnd, totalEnd = units.PH(8.3), units.PH(4.5)
	room              = units.Temperature(25)
)

// oneDrop from a burette or dropper bottle is about 0.05 mL: common practice,
// no source.
const oneDrop = units.Volume(50e-6)

// Titrate is the alkalinity of a sample that took acid of a normality, in
// equivalents to the litre, to pH 8.3 and on to 4.5, both counted from the
// start.
func Titrate(sample units.Volume, normality float64, to83 units.Volume, to45 *units.Volume) (Alkalinity, error) {
	eq := func(acid units.Volume) float64 { return float64(acid) * normality / float64(sample) }
	switch {
	case !(sample > 0 && sample <= 1):
		return Alkalinity{}, fmt.Errorf("a sample of %g mL is none for a drop test: give its volume, like 10mL", sample.ML())
	case !(normality >= 0.001 && normality <= 2):
		return Alkalinity{}, fmt.Errorf("acid of %g N is none for a drop test: 0.001 to 2 are allowed, from the bottle", normality)
	case !(to83 >= 0 && eq(to83) <= 10):
		return Alkalinity{}, fmt.Errorf("%g mL of acid to pH 8.3 is not believable in a sample of %g mL: give it like 4.1mL", to83.ML(), sample.ML())
	case to45 == nil && to83 == 0:
		return Alkalinity{}, fmt.Errorf("no acid to pH 8.3 means the sample was never pink: go on to pH 4.5, or take a fresh sample")
	}
	found := Alkalinity{P: eq(to83), Drop: eq(oneDrop)}
	if to45 == nil {
		return found, nil
	}
	switch found.T = eq(*to45); {
	case !(*to45 >= to83):
		return Alkalinity{}, fmt.Errorf("%g mL to pH 4.5 is less than %g mL to pH 8.3: count both from the start", to45.ML(), to83.ML())
	case found.T == 0:
		return Alkalinity{}, fmt.Errorf("no acid at all means there is no soap in the sample: check what was sampled")
	case !(found.T <= 10):
		return Alkalinity{}, fmt.Errorf("%g mL of acid to pH 4.5 is not believable in a sample of %g mL: give it like 6.0mL", to45.ML(), sample.ML())
	}
	return found, nil
}

// CaCO3 is an alkalinity as laboratories print it, in mg of calcium carbonate
// to the litre.
func CaCO3(eq float64) float64 { return 50_000 * eq }

// Shares of an alkalinity, in equivalents to the litre.
type Shares struct{ Hydroxide, Carbonate, Bicarbonate float64 }

// Shares is the alkalinity by what makes it, as the table of Standard Methods
// 2320 B has it (from memory). It takes silicate and borate for carbonate, and
// needs T. Hydroxide, 2P - T, is the free alkalinity.
func (a Alkalinity) Shares() Shares {
	free := max(0, 2*a.P-a.T)
	bound := 2 * min(a.P, a.T-a.P)
	return Shares{Hydroxide: free, Carbonate: bound, Bicarbonate: max(0, a.T-2*a.P)}
}

// Recharge is the soap to add so that a bath regains its strength: a part of
// the whole charge as large as the part of its alkalinity that is gone
// (formulators' practice). now and fresh are one measure, such as P; where the
// soap holds no free alkalinity that one cannot serve.
func Recharge(charge units.Volume, now, fresh float64) (units.Volume, error) {
	switch {
	case !(fresh > 0 && fresh <= 10):
		return 0, fmt.Errorf("an alkalinity of %g when fresh gives nothing to compare with: do a drop test after the next fill", fresh)
	case !(now >= 0 && now <= 10):
		return 0, fmt.Errorf("an alkalinity of %g is none of a bath: give 0 or more", now)
	case !(charge > 0):
		return 0, fmt.Errorf("a charge of %s is none: give the soap of a whole fill, like 7L", units.SI.Text(charge))
	}
	return charge * units.Volume(max(0, 1-now/fresh)), nil
}

// apart is how far two amounts of soap may differ, as a part of a charge.
// Judgement, no source.
const apart = 0.2

// Disagree says what it may mean that the pH asks for one amount of soap and the
// drop test for another. It is empty where they are near enough.
func Disagree(byPH, byDrops, charge units.Volume) string {
	if math.Abs(float64(byPH-byDrops)) <= apart*float64(charge) {
		return ""
	}
	if byPH > byDrops {
		return "pH asks for more soap than the drop test: air may have got at the bath, or the meter reads low; check the meter before adding"
	}
	return "the drop test asks for more soap than pH: soap went out on the gear, or the meter reads high; check the meter, then go by the drop test"
}

// alkalinity is the acid that a mix takes to a pH.
func (m Mix) alkalinity(end units.PH) (float64, error) {
	return Amount(m, Mix{Acid: 1}, end, room)
}
