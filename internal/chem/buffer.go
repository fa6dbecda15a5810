package chem

import (
	"fmt"
	"math"
	"strings"

	"bathside/internal/units"
)

// Buffer is a solution of known pH to set a meter by. Buffers can be compared
// with ==; the zero Buffer is none.
type Buffer struct {
	Name  string // phthalate, phosphate, 7.00, borax, carbonate
	Label string // as marked on the bottle, for 25 °C: 10.01
	Say   string // what it is, in a phrase

	fit     [4]float64 // a cubic in t/50 °C
	hottest units.Temperature
}

// Buffers are those that the program knows, from the most acid.
//
// The cubics are least squares on the primary values of IUPAC 2002 (Buck et
// al., Pure Appl. Chem. 74, 2169), for 7.00 on a table of the trade; each is
// within 0.0007 of its table. Carbonate takes up carbon dioxide from the air:
// discard it after use.
var Buffers = []Buffer{
	{"phthalate", "4.01", "0.05 m potassium hydrogen phthalate",
		[4]float64{4.00007, -0.03143, 0.08202, -0.00039}, 60},
	{"phosphate", "6.86", "0.025 + 0.025 m phosphate, a primary standard",
		[4]float64{6.98371, -0.34923, 0.24916, -0.05077}, 60},
	{"7.00", "7.00", "0.041 + 0.026 m phosphate, as most shops sell it",
		[4]float64{7.11797, -0.33308, 0.20814, -0.02898}, 60},
	{"borax", "9.18", "0.01 m borax",
		[4]float64{9.46388, -0.72473, 0.35353, -0.08192}, 60},
	{"carbonate", "10.01", "0.025 + 0.025 m carbonate; discard after use",
		[4]float64{10.31712, -0.75063, 0.29937, -0.03761}, 50},
}

// FindBuffer finds a buffer by its name or by what is marked on its bottle, in
// any case. Its error is a sentence that lists them, or that says what is wrong
// with a buffer marked 10.00.
func FindBuffer(name string) (Buffer, error) {
	name = strings.TrimSpace(name)
	for _, b := range Buffers {
		if strings.EqualFold(name, b.Name) || name == b.Label {
			return b, nil
		}
	}
	switch name {
	case "10.00", "10.0", "10":
		return Buffer{}, fmt.Errorf("a buffer marked %s may be made with carbonate or with borate, which differ once warm: if the label says carbonate, write carbonate; if not, calibrate at 20 to 25 °C and write the slope and offset that the meter shows", name)
	case "":
		return Buffer{}, noBuffer()
	}
	return Buffer{}, fmt.Errorf("%q is no buffer we know: write %s", name, bufferNames())
}

func noBuffer() error { return fmt.Errorf("no buffer was named: write %s", bufferNames()) }

// bufferNames lists the buffers, each with its mark.
func bufferNames() string {
	var names []string
	for _, b := range Buffers {
		if b.Name == b.Label {
			names = append(names, b.Name)
		} else {
			names = append(names, fmt.Sprintf("%s (%s)", b.Name, b.Label))
		}
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// PH is what the buffer is at a temperature, to the thousandth as the tables
// have it and within 0.001 of them. They end at 60 °C, carbonate's at 50 °C:
// beyond that it is an error.
func (b Buffer) PH(t units.Temperature) (units.PH, error) {
	if b == (Buffer{}) {
		return 0, noBuffer()
	}
	if !(t >= 0 && t <= b.hottest) {
		end := max(0, min(t, b.hottest)) // the end that t is beyond
		shown, _ := units.SI.TempPair(t, end)
		return 0, fmt.Errorf("the %s buffer at %s has no known value: use it from 0 °C to %s (32 °F to %s)",
			b.Name, shown, units.SI.Temp(b.hottest), units.US.Temp(b.hottest))
	}
	return b.at(t), nil
}

// Nominal is the buffer at 25 °C.
func (b Buffer) Nominal() units.PH { return b.at(25) }

func (b Buffer) at(t units.Temperature) units.PH {
	u := float64(t) / 50
	ph := b.fit[0] + u*(b.fit[1]+u*(b.fit[2]+u*b.fit[3]))
	return units.PH(math.Round(1000*ph) / 1000)
}
