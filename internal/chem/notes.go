package chem

import (
	"fmt"

	"bathside/internal/units"
)

// hardFrom is the hardness from which water is to be softened, in mg of calcium
// carbonate to the litre: from food-sanitation texts.
const hardFrom = 120

// HardWater says what fill water of a hardness, in mg of calcium carbonate to
// the litre, does to a soap. It is empty where that is little.
func HardWater(f Family, hardness float64) string {
	if !(hardness > hardFrom) || f.Known() && f.Builder != "carbon" && f.Builder != "silicon" {
		return ""
	}
	return fmt.Sprintf("hard water (%.0f mg/L, above %d): it uses up soap, lowers the pH and leaves scale; soften it, and go by the bath's own first reading, never the data sheet's pH", hardness, hardFrom)
}

// evaporatedNote is the rise from which evaporation is worth a word.
const evaporatedNote = 0.02

// Evaporated is how much higher a bath of a plain soap of family f reads when a
// part of its water, from 0 to 0.5, has gone as vapour, and a sentence where
// that is much.
func Evaporated(f Family, read Sample, part float64) (rise units.PH, say string, err error) {
	if err := read.check(); err != nil {
		return 0, "", err
	}
	if !(part >= 0 && part <= 0.5) {
		return 0, "", fmt.Errorf("a loss of %g of the water is none to reckon with: 0 to 0.5 are allowed", part)
	}
	if !f.Known() {
		f = Families[0] // nothing holds its pH: the most that it can be
	}
	m, err := f.fresh(read)
	if err != nil {
		return 0, "", err
	}
	s, err := Solve(Mix{}.Plus(m, 1/(1-part)), read.At)
	if err != nil {
		return 0, "", err
	}
	if rise = s.PH - read.PH; rise >= evaporatedNote {
		say = fmt.Sprintf("with %.0f %% of its water gone it reads up to %.2f high: fill it to the mark, mix, then read", 100*part, float64(rise))
	}
	return rise, say, nil
}
