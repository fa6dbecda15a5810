package advise

import (
	"errors"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// family is the soap type in a tank, with its builder where the data sheet
// gives it; the zero Family where nobody has looked it up.
func family(t bath.Tank) chem.Family {
	f, err := chem.FindFamily(t.Family)
	if err != nil { // an imported line may hold what the door refuses
		return chem.Family{}
	}
	if told, err := f.Label(t.BuilderPct, t.Ratio); err == nil && f.Known() {
		return told
	}
	return f
}

// errOutOfRange says that nothing is known of a sample so cold or so hot.
var errOutOfRange = errors.New("no bath is known at this temperature")

// shift is how much a pH moves from one temperature to another.
type shift struct {
	up, u float64
	by    string
}

// shift takes a sample to another temperature: by this bath's own slope where
// it is known, else by its soap type, else by what alkaline baths do on the
// whole.
func (j *judging) shift(s chem.Sample, to units.Temperature) (shift, error) {
	if s.At < chem.Coldest || s.At > chem.Hottest {
		return shift{}, errOutOfRange
	}
	if j.own != nil {
		ph, u := j.own.Restate(s.PH, s.At, to)
		return shift{float64(ph - s.PH), u, "this bath's own slope"}, nil
	}
	by := "what most baths do: the soap type is not known"
	if j.soap.Known() {
		by = "its soap type, " + j.soap.Name
	}
	ph, u, err := chem.Restate(j.soap, s.PH, s.At, to)
	return shift{float64(ph - s.PH), u, by}, err
}
