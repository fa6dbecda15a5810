package bath

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// Titration is a drop test of the bath: acid dripped into a sample until it
// reads pH 8.3, and on to 4.5.
type Titration struct {
	SampleL Burette   `json:"sample_l"`
	AcidN   Normality `json:"acid_n"`
	To83L   Burette   `json:"to_8_3_l"`
	To45L   *Burette  `json:"to_4_5_l,omitzero"` // from the start, not from 8.3
}

// Burette is a volume in litres that is typed and shown in millilitres, in
// every system of units.
type Burette units.Volume

// Normality is the strength of an acid, in equivalents to the litre.
type Normality float64

var titrationSpec = &Spec{
	Kind: "titration", Title: "Log a drop test", Scope: OfFill, Role: Officer, held: true,
	New: func() Body { return new(Titration) },
	Fields: []Field{
		field("sample", "sample", "10mL", func(t *Titration) *Burette { return &t.SampleL }).help("of the bath, cooled; goggles and gloves, and never back into the bath"),
		field("acid", "acid", "0.1N", func(t *Titration) *Normality { return &t.AcidN }).help("its strength, from the bottle"),
		field("to-8.3", "acid to pH 8.3", "4.1mL", func(t *Titration) *Burette { return &t.To83L }).help("where the pink goes"),
		field("to-4.5", "acid to pH 4.5", "6.0mL", func(t *Titration) **Burette { return &t.To45L }).optional("from the start, not from 8.3"),
	},
}

func (t *Titration) spec() *Spec { return titrationSpec }

// Alkalinity is what the drop test says of the bath.
func (t *Titration) Alkalinity() (chem.Alkalinity, error) {
	return chem.Titrate(units.Volume(t.SampleL), float64(t.AcidN), units.Volume(t.To83L), (*units.Volume)(t.To45L))
}

func (t *Titration) check(view, Entry) error {
	if _, err := t.Alkalinity(); err != nil {
		return refuse("input", "%s", err)
	}
	return nil
}

func (t *Titration) say(sys units.System) string {
	s := fmt.Sprintf("drop test: %s of %s acid to pH 8.3", t.To83L, t.AcidN)
	if t.To45L != nil {
		s += fmt.Sprintf(", %s to 4.5", *t.To45L)
	}
	return s + " in a sample of " + t.SampleL.String()
}

func (b *Burette) set(text string) error { return units.Scan((*units.Volume)(b), text) }

// String is how the volume would be typed.
func (b Burette) String() string {
	return strconv.FormatFloat(math.Round(1000*units.Volume(b).ML())/1000, 'f', -1, 64) + " mL"
}

func (n *Normality) set(text string) error {
	number := strings.TrimSpace(strings.TrimRight(text, "nN "))
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !(x > 0 && x <= 10) {
		return fmt.Errorf("%q is not the strength of an acid: write it like 0.1N", short(clean(text)))
	}
	*n = Normality(x)
	return nil
}

// String is how the strength would be typed.
func (n Normality) String() string { return strconv.FormatFloat(float64(n), 'g', -1, 64) + "N" }
