package advise

import (
	"fmt"
	"math"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// Judged is a reading with what can be made of it.
type Judged struct {
	bath.Rec[*bath.Reading]
	Standing chem.Standing // what its meter was worth that day
	Doubt    Doubt         // why it is kept and not trusted; zero where it is

	// Odd says that it is far below what was expected, and nothing confirms it:
	// it stays out of the trend. It counts all the same until a second reading
	// settles it, for a bath that is worse than thought must not look well.
	Odd   string
	asked bool // it is out of line, and a second reading was asked for and not taken

	// Against is the first reading, hot or cooled, that it is compared with;
	// nil where it is compared with none.
	Against *bath.Rec[*bath.Reading]

	// Shift takes its pH to the temperature of Against, and ShiftU is the
	// standard uncertainty of that; both 0 at the same temperature. Restated
	// reports whether Shift counts: within 3 °C like is compared with like, as
	// read.
	Shift, ShiftU float64
	Restated      bool
	How           string // by what it was restated: "this bath's own slope"

	Drop *float64 // below Against
	U    float64  // standard uncertainty of Drop
}

// Doubt is why a reading is kept and not trusted.
type Doubt struct {
	Kind DoubtKind
	Why  string
}

// DoubtKind is what is wrong with a reading.
type DoubtKind int

// The kinds of doubt.
const (
	_          DoubtKind = iota
	DoubtRose            // it went up with no soap logged
	DoubtMeter           // its meter had failed
	DoubtStrip           // it is no meter
	DoubtOdd             // it is far above what was expected, and nothing confirms it
	DoubtClock           // it is dated after now: the clock that wrote it ran ahead
)

// inTrend reports whether the trend counts the reading.
func (r Judged) inTrend() bool { return r.Doubt == (Doubt{}) && r.Odd == "" && r.Drop != nil }

// Equivalent is what the reading would be at the temperature of Against.
func (r Judged) Equivalent() units.PH {
	if !r.Restated {
		return r.Is.PH
	}
	return r.Is.PH + units.PH(r.Shift)
}

// AtFirst is what r would read at the temperature of the first reading, hot
// unless there is only a cooled one: the first one less the drop of r. It is
// false where r is compared with nothing.
func (j Judgement) AtFirst(r Judged) (ph units.PH, first *Judged, ok bool) {
	if first = j.First; first == nil {
		first = j.Cooled
	}
	if first == nil || r.Drop == nil {
		return 0, first, false
	}
	return units.PH(round(float64(first.Is.PH) - *r.Drop)), first, true
}

// EquivalentU is the standard uncertainty of Equivalent as a pH by itself.
func (r Judged) EquivalentU() float64 { return math.Hypot(r.Standing.Trust.U(), r.ShiftU) }

func (r Judged) sample() chem.Sample { return chem.Sample{PH: r.Is.PH, At: r.Is.SampleC} }

// Comparable is how far apart two samples may be in temperature for their pH
// to be compared as read: 3 °C.
const Comparable = units.Temperature(3)

// Like reports whether two readings were taken at so like a temperature that
// their pH may be compared as read.
func Like(a, b *bath.Reading) bool { return apart(a, b) <= Comparable+1e-9 }

func apart(a, b *bath.Reading) units.Temperature {
	return units.Temperature(math.Abs(float64(a.SampleC - b.SampleC)))
}

// compare holds r against the first reading whose sample was nearest to its
// own in temperature.
func (r *Judged) compare(j *judging) {
	base := j.nearest(r.Is)
	if base == nil || base.Doubt != (Doubt{}) {
		return
	}
	if base.Seq == r.Seq {
		if j.first != nil { // the cooled pair alone says nothing of itself
			r.Against, r.Drop = &base.Rec, new(0.0)
		}
		return
	}
	shift, err := j.shift(r.sample(), base.Is.SampleC)
	if err != nil {
		return
	}
	r.Against, r.Restated, r.How = &base.Rec, !Like(r.Is, base.Is), shift.by
	r.Shift, r.ShiftU = shift.up, shift.u
	if !r.Restated { // as read: what is left out is uncertain, up to all of it
		r.ShiftU = math.Abs(shift.up) / math.Sqrt(3)
	}
	r.Drop = new(round(float64(base.Is.PH - r.Equivalent())))
	r.U = math.Hypot(chem.Difference(base.Standing, r.Standing), r.ShiftU)
}

// nearest is the first reading to compare r with; of two that are alike the
// hot one. Without the hot one there is none but for a reading as cold as its
// pair: nothing takes its place.
func (j *judging) nearest(r *bath.Reading) *Judged {
	switch {
	case j.first == nil && j.cool != nil && !Like(r, j.cool.Is):
		return nil
	case j.cool == nil || j.first != nil && (Like(r, j.first.Is) || j.cool.Doubt != (Doubt{})):
		return j.first
	case j.first == nil, apart(r, j.cool.Is) < apart(r, j.first.Is):
		return j.cool
	}
	return j.first
}

// RiseAsked is the rise in pH that, with no soap logged, needs a reason.
const RiseAsked = 0.12

// rise doubts a reading that went up for no logged reason.
func (j *judging) rise(r Judged) Doubt {
	if r.Is.Rose != "" || r.Is.Baseline {
		return Doubt{}
	}
	before, rise, ok := j.rose(r)
	if !ok || dosedBetween(j.life, before.Entry, r.Entry) {
		return Doubt{}
	}
	return Doubt{DoubtRose, fmt.Sprintf("up %.2f since %s with no soap logged", rise, j.times.Date(before.At))}
}

// rose compares r with the last trusted reading that it can be compared with,
// and that r does not settle.
// A reading that had to be restated must rise by more, for what restating may
// be out.
func (j *judging) rose(r Judged) (before Judged, rise float64, ok bool) {
	for i := len(j.Readings) - 1; i >= 0; i-- {
		t := j.Readings[i]
		if t.Doubt != (Doubt{}) || t.settledBy(r) {
			continue
		}
		switch {
		case Like(t.Is, r.Is):
			rise = round(float64(r.Is.PH - t.Is.PH))
			return t, rise, rise > RiseAsked
		case t.Drop != nil && r.Drop != nil:
			rise = round(*t.Drop - *r.Drop)
			return t, rise, rise > RiseAsked+chem.Real(math.Hypot(t.ShiftU, r.ShiftU))
		}
	}
	return Judged{}, 0, false
}

func dosedBetween(l bath.Life, from, to bath.Entry) bool {
	for _, d := range bath.Of[*bath.Dose](l.Entries) {
		if from.Before(d.Entry) && d.Before(to) {
			return true
		}
	}
	return false
}
