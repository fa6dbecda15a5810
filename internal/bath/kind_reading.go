package bath

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bathside/internal/units"
)

// Why the pH rose with no soap in the log book.
const (
	RoseSoap    = "soap"    // soap was added and is not logged
	RoseRefill  = "refill"  // the bath was refilled
	RoseUnmixed = "unmixed" // the first reading was taken before the soap was mixed in
)

// How much oil was seen on the bath.
const (
	OilNone  = "none"
	OilFilm  = "film"
	OilDrops = "drops"
	OilLayer = "layer"
)

// Reading is one pH value with the temperature of the sample it was read in.
type Reading struct {
	PH       units.PH          `json:"ph"`
	SampleC  units.Temperature `json:"sample_c"`
	Meter    string            `json:"meter,omitzero"`
	Waited   units.Span        `json:"waited_s,omitzero"`
	Baseline bool              `json:"baseline,omitzero"` // the entry says: this is the first reading
	Cooled   bool              `json:"cooled,omitzero"`   // from a cup left to cool to the room
	Rose     string            `json:"rose,omitzero"`     // the answer to why the pH went up
	Again    *units.PH         `json:"again,omitzero"`    // the same sample read a second time
	Third    *units.PH         `json:"third,omitzero"`    // and, where the two do not agree, a third time
	Oil      string            `json:"oil,omitzero"`      // on the bath: none, film, drops, layer
}

var readingSpec = &Spec{
	Kind: "reading", Title: "Record a pH reading", Scope: OfFill, Role: Crew, held: true,
	New: func() Body { return new(Reading) },
	Fields: []Field{
		field("ph", "pH", "10.10", func(r *Reading) *units.PH { return &r.PH }).help("probe still until the number stands, 15 to 20 s"),
		field("sample", "sample at", "121F", func(r *Reading) *units.Temperature { return &r.SampleC }).help("typed, never filled in"),
		field("meter", "meter", "M2", func(r *Reading) *string { return &r.Meter }).optional("the last one used, if left out; strips for paper strips"),
		field("waited", "waited", "20s", func(r *Reading) *units.Span { return &r.Waited }).optional("how long the probe stood"),
		field("baseline", "first reading", "yes", func(r *Reading) *bool { return &r.Baseline }).optional("the one this fill is judged against"),
		field("cooled", "cooled cup", "yes", func(r *Reading) *bool { return &r.Cooled }).optional("from a cup left to cool to the room"),
		field("again", "read again", "10.11", func(r *Reading) **units.PH { return &r.Again }).optional("rinse, dip again: within 0.05, before a first reading"),
		field("third", "a third time", "9.93", func(r *Reading) **units.PH { return &r.Third }).optional("where the two do not agree: the middle one counts"),
		field("oil", "oil on it", OilNone, func(r *Reading) *string { return &r.Oil }).words(OilNone, OilFilm, OilDrops, OilLayer).optional("seen on the bath, pump off"),
		field("rose", "why it rose", "soap", func(r *Reading) *string { return &r.Rose }).
			words(RoseSoap, RoseRefill, RoseUnmixed).optional("only when the pH went up with no soap logged"),
	},
}

func (r *Reading) spec() *Spec { return readingSpec }

func (r *Reading) check(v view, e Entry) error {
	if r.PH < 0 || r.PH > 14 {
		return refuse("input", "a pH of %.2f is outside 0 to 14: read it again", float64(r.PH))
	}
	if err := checkLiquid("a sample", r.SampleC, v.sys); err != nil {
		return err
	}
	if r.Waited != 0 {
		if err := checkTime("wait", r.Waited, 3600, v.sys); err != nil {
			return err
		}
	}
	if r.Again != nil {
		if err := r.checkAgain(); err != nil {
			return err
		}
	}
	if !r.Baseline {
		return nil
	}
	if IsStrip(r.Meter) {
		return refuse("strip", "a strip is too coarse for a first reading: take it with a meter")
	}
	doses := Of[*Dose](v.life.Entries)
	if !slices.ContainsFunc(doses, func(d Rec[*Dose]) bool { return !d.At.After(e.At) }) {
		return refuse("no-soap", "the first reading comes after the soap, and no soap is logged in this fill before %s: log the first dose, then read again", v.s.day(e.At))
	}
	if old, ok := v.life.Baseline(r.Cooled); ok {
		return refuse("baseline", "this fill has its first reading already: %.2f on %s (line %d); cross that one out first", float64(old.Is.PH), v.s.day(old.At), old.Seq)
	}
	return nil
}

// Agree is how near two readings of one sample must be: 0.05 (common
// practice, no source).
const Agree = 0.05

func (r *Reading) checkAgain() error {
	again := *r.Again
	if again < 0 || again > 14 {
		return refuse("input", "a pH of %.2f is outside 0 to 14: read it again", float64(again))
	}
	if apart := math.Abs(float64(r.PH - again)); r.Baseline && apart > Agree+1e-9 {
		return refuse("apart", "%.2f and %.2f are %.2f apart, and two readings of one sample must be within %.2f: rinse, wait until the number stands, read both again",
			float64(r.PH), float64(again), apart, Agree)
	}
	return nil
}

// IsStrip reports whether a meter is none: test strips show the trend only.
func IsStrip(meter string) bool {
	return strings.EqualFold(meter, "strip") || strings.EqualFold(meter, "strips")
}

func (r *Reading) say(sys units.System) string {
	s := fmt.Sprintf("pH %.2f at %s", float64(r.PH), sys.Text(r.SampleC))
	switch {
	case r.Baseline && r.Cooled:
		s += ", first reading, cooled cup"
	case r.Baseline:
		s += ", first reading"
	case r.Cooled:
		s += ", cooled cup"
	}
	if r.Again != nil {
		s += fmt.Sprintf(", again %.2f", float64(*r.Again))
	}
	s += suffix(", meter ", r.Meter)
	if r.Rose != "" {
		s += ", rose: " + map[string]string{RoseSoap: "soap was added", RoseRefill: "the bath was refilled", RoseUnmixed: "first reading before it was mixed"}[r.Rose]
	}
	return s
}
