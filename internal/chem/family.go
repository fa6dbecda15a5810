package chem

import (
	"errors"
	"fmt"
	"strings"

	"bathside/internal/units"
)

// Unknown is the word for a soap whose type nobody has looked up.
const Unknown = "unknown"

// Family is what carries the pH of a soap. The zero Family is a soap of unknown
// type: any of [Families].
type Family struct {
	Name    string // hydroxide, metasilicate, ...
	Say     string // what it is, for a crew with the data sheet in hand
	Builder string // carbon, silicon, boron or phosphorus; empty for hydroxide

	base, unit Mix     // of a working bath: base, and as much of unit as its pH asks for
	each       float64 // grams of what a data sheet names, for a mole of the builder
	told       bool    // base is from the data sheet
}

// Families are the types told apart. Where alkali and builder do not come in a
// set proportion the builder is one usual for a working bath, from memory: the
// data sheet says better, see [Family.With].
var Families = []Family{
	{Name: "hydroxide", Say: "caustic soda or potash and no other builder",
		unit: Mix{Sodium: 1}},
	{Name: "metasilicate", Say: "sodium metasilicate", Builder: "silicon", each: 122.06,
		unit: Mix{Sodium: 2, Silicon: 1}},
	{Name: "soda-ash", Say: "sodium carbonate alone", Builder: "carbon", each: 105.99,
		unit: Mix{Sodium: 2, Carbon: 1}},
	{Name: "buffered-carbonate", Say: "carbonate with bicarbonate", Builder: "carbon", each: 105.99,
		base: Mix{Carbon: 0.02}, unit: Mix{Sodium: 1}},
	{Name: "silicate", Say: "sodium silicate, water glass", Builder: "silicon", each: 79.45, // 3.2 SiO2 to Na2O
		base: Mix{Silicon: 0.01}, unit: Mix{Sodium: 1}},
	{Name: "borate", Say: "borax or another borate", Builder: "boron", each: 95.34, // borax with its water
		base: Mix{Boron: 0.02}, unit: Mix{Sodium: 1}},
	{Name: "phosphate", Say: "trisodium phosphate", Builder: "phosphorus", each: 163.94,
		base: Mix{Phosphorus: 0.01}, unit: Mix{Sodium: 1}},
	{Name: "mixed", Say: "carbonate with half as much silicate, partly neutralised", Builder: "carbon", each: 105.99,
		base: Mix{Carbon: 0.02, Silicon: 0.01}, unit: Mix{Sodium: 1}},
}

// FindFamily is the family of a name. The name unknown, or none, gives the zero
// Family.
func FindFamily(name string) (Family, error) {
	word := strings.ToLower(strings.TrimSpace(name))
	if word == "" || word == Unknown {
		return Family{}, nil
	}
	var names []string
	for _, f := range Families {
		if f.Name == word {
			return f, nil
		}
		names = append(names, f.Name)
	}
	return Family{}, fmt.Errorf("%.30q is not a soap type: write %s or %s, as its data sheet has it", name, strings.Join(names, ", "), Unknown)
}

// Known reports whether f is any family at all.
func (f Family) Known() bool { return f.Name != "" }

// With is f with so much of its builder in the working bath, in mol of Builder
// to the kg of water.
func (f Family) With(builder float64) (Family, error) {
	switch {
	case !f.Known():
		return f, fmt.Errorf("an amount of builder says nothing while the soap type is unknown: name the type as well")
	case f.Builder == "":
		return f, fmt.Errorf("%s has no builder beside its alkali: leave the amount out", f.Name)
	case !(builder > 0 && builder <= 1):
		return f, fmt.Errorf("%g mol of %s per kg is not a working bath: give more than 0 and at most 1, like 0.02", builder, f.Builder)
	}
	have := f.base
	if have == (Mix{}) {
		have = f.unit
		have.Sodium = 0
	}
	f.base = Mix{}.Plus(have, builder/have.builder(f.Builder))
	f.unit = Mix{Sodium: 1}
	f.told = true
	return f, nil
}

// Label is f with its builder as a data sheet gives it: so many per cent of the
// product by weight, of which ratio parts of water go to 1. The product is
// taken to weigh as much as water. Where percent is 0 f stays as it is, and so do
// hydroxide, whose pH says it all, and a soap of unknown type.
func (f Family) Label(percent, ratio float64) (Family, error) {
	switch {
	case !(percent >= 0 && percent <= 100):
		return f, fmt.Errorf("%g %% of builder is not possible: 0 to 100 are allowed, from the data sheet", percent)
	case percent == 0 || f.Builder == "":
		return f, nil
	case !(ratio >= 1 && ratio <= 1000):
		return f, errRatio(ratio)
	}
	return f.With(10 * percent / f.each / (ratio + 1))
}

// builder is how much of an element m holds.
func (m Mix) builder(element string) float64 {
	switch element {
	case "carbon":
		return m.Carbon
	case "silicon":
		return m.Silicon
	case "boron":
		return m.Boron
	case "phosphorus":
		return m.Phosphorus
	}
	return 0
}

// fresh is the bath of family f that gives a reading.
func (f Family) fresh(read Sample) (Mix, error) {
	x, err := Amount(f.base, f.unit, read.PH, read.At)
	if errors.Is(err, ErrNoRoot) || err == nil && x < 0 {
		return Mix{}, fmt.Errorf("no bath of %s reads pH %.2f at %s: check the reading and the soap type", f.Name, float64(read.PH), units.SI.Temp(read.At))
	}
	if err != nil {
		return Mix{}, fmt.Errorf("%s at pH %.2f and %s: %w", f.Name, float64(read.PH), units.SI.Temp(read.At), err)
	}
	return f.base.Plus(f.unit, x), nil
}

// soured is m with strong acid to give a reading, or with alkali where it takes
// that.
func (m Mix) soured(read Sample) (Mix, error) {
	unit := Mix{Acid: 1}
	x, err := Amount(m, unit, read.PH, read.At)
	if err == nil && x < 0 {
		unit = Mix{Sodium: 1}
		x, err = Amount(m, unit, read.PH, read.At)
	}
	return m.Plus(unit, max(0, x)), err
}

// stronger is m with factor times of everything, brought back to its reading by
// acid or alkali. A factor above 1 stands for a soap that is partly neutralised
// and for buffers that the model does not know.
func (m Mix) stronger(factor float64, read Sample) (Mix, error) {
	return Mix{}.Plus(m, factor).soured(read)
}
