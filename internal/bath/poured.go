package bath

import (
	"slices"
	"time"

	"bathside/internal/units"
)

// Poured is a top-up with what the bath read before it and after. From such
// the station learns what its soap does.
type Poured struct {
	At      time.Time    `json:"at"`
	AddedL  units.Volume `json:"added_l"`
	Charged float64      `json:"charged"` // soap in the bath before, over the first dose
	Before  Read         `json:"before"`
	After   Read         `json:"after"`
}

// Read is a reading without who.
type Read struct {
	Seq     uint64            `json:"seq"`
	At      time.Time         `json:"at"`
	PH      units.PH          `json:"ph"`
	SampleC units.Temperature `json:"sample_c"`
	Meter   string            `json:"meter,omitzero"`
}

// telling is how long before a top-up, or after it, a reading still tells what
// the top-up did.
const telling = 8 * 24 * time.Hour

// Poured lists the top-ups of l with a reading on either side of them and no
// other soap between. Strips tell nothing, and the first dose is no top-up.
func (l Life) Poured() []Poured {
	var out []Poured
	var read *Rec[*Reading] // the last, since the last soap
	open := false           // a top-up waits for the reading after it
	var first units.Volume  // the first dose; 0 before it
	for i, e := range l.Entries {
		switch b := e.Body.(type) {
		case *Dose:
			if open {
				out = out[:len(out)-1]
			}
			open = first > 0 && read != nil && e.At.Sub(read.At) <= telling
			if open {
				so := l
				so.Entries = l.Entries[:i]
				out = append(out, Poured{At: e.At, AddedL: b.VolumeL, Charged: float64(so.Strength() / first), Before: readOf(*read)})
			}
			if first == 0 {
				first = b.VolumeL
			}
			read = nil
		case *Reading:
			if IsStrip(b.Meter) {
				continue
			}
			r := Rec[*Reading]{e, b}
			if open && e.At.Sub(out[len(out)-1].At) <= telling {
				out[len(out)-1].After = readOf(r)
				open = false
			}
			read = &r
		}
	}
	if open {
		out = out[:len(out)-1]
	}
	return out
}

func readOf(r Rec[*Reading]) Read { return Read{r.Seq, r.At, r.Is.PH, r.Is.SampleC, r.Is.Meter} }

// Product is the soap of l: what its last dose says, or otherwise where that
// says nothing.
func (l Life) Product(otherwise string) string {
	for _, d := range slices.Backward(Of[*Dose](l.Entries)) {
		if d.Is.Product != "" {
			return d.Is.Product
		}
	}
	return otherwise
}

// FirstDose is the soap of the first dose; 0 before there was one.
func (l Life) FirstDose() units.Volume {
	if doses := Of[*Dose](l.Entries); len(doses) > 0 {
		return doses[0].Is.VolumeL
	}
	return 0
}

// SeriesRead is a reading of a fill that is over.
type SeriesRead struct {
	Read
	Day   float64 `json:"day"`   // since the fill
	Loads int     `json:"loads"` // washed since the fill
}

// series is the readings of l but for the cooled pair and strips.
func (l Life) series() []SeriesRead {
	var out []SeriesRead
	loads := 0
	for _, e := range l.Entries {
		switch b := e.Body.(type) {
		case *Wash:
			loads++
		case *Reading:
			if !IsStrip(b.Meter) && !(b.Baseline && b.Cooled) {
				out = append(out, SeriesRead{readOf(Rec[*Reading]{e, b}), e.At.Sub(l.Fill.At).Hours() / 24, loads})
			}
		}
	}
	return out
}
