package chem

import "math"

// Species are the molecules and ions of the model.
type Species int

// Every species, in the order of Solution.Molal.
const (
	H Species = iota
	OH
	Na
	X // the ion of a strong acid
	CO2
	HCO3
	CO3
	H4SiO4
	H3SiO4
	H2SiO4
	H3BO3
	H2BO3
	H3PO4
	H2PO4
	HPO4
	PO4
	speciesCount
)

// A trait is what activity needs to know of a species: its charge, and the a
// and b of Truesdell & Jones (1974), log γ = -A z² √I/(1 + a B √I) + b I, as
// phreeqc.dat 3.8.9 gives them.
type trait struct {
	z, a, b float64
	davies  bool // log γ = -A z² (√I/(1+√I) - 0.3 I), Davies (1962)
}

var traits = [speciesCount]trait{
	H:      {z: 1, a: 9},
	OH:     {z: -1, a: 3.5},
	Na:     {z: 1, a: 4.08, b: 0.082},
	X:      {z: -1, a: 3.63, b: 0.017}, // chloride's
	CO2:    {b: 0.066},
	HCO3:   {z: -1, a: 5.4, b: 0.0078},
	CO3:    {z: -2, a: 5.4},
	H4SiO4: {b: 0.1},
	H3SiO4: {z: -1, a: 4},
	H2SiO4: {z: -2, a: 5.4},
	H3BO3:  {b: 0.1},
	H2BO3:  {z: -1, davies: true},
	H3PO4:  {b: 0.1},
	H2PO4:  {z: -1, a: 5.4},
	HPO4:   {z: -2, a: 5},
	PO4:    {z: -3, a: 4},
}

// activity gives the activity coefficients at an ionic strength.
type activity struct{ a, b, ionic, root float64 }

func (k *constants) activity(ionic float64) activity {
	return activity{k.a, k.b, ionic, math.Sqrt(ionic)}
}

// of is γ of a species.
func (a activity) of(s Species) float64 {
	t := &traits[s]
	debye := a.root / (1 + t.a*a.b*a.root)
	if t.davies {
		debye = a.root/(1+a.root) - 0.3*a.ionic
	}
	return tenTo(t.b*a.ionic - a.a*t.z*t.z*debye)
}
