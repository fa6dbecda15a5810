package bath

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// Tank is a vessel and the product used in it. An entry carries only what
// changes; Bath.Tank is all of it together. The entry's bath is the tank's id.
type Tank struct {
	Name       string             `json:"name,omitzero"`     // as the top line shows it
	VolumeL    units.Volume       `json:"volume_l,omitzero"` // to the mark
	Mark       string             `json:"mark,omitzero"`     // in the station's own words
	LowL       units.Volume       `json:"low_l,omitzero"`    // below this the heater runs dry
	HeaterW    units.Power        `json:"heater_w,omitzero"`
	SurfaceM2  units.Area         `json:"surface_m2,omitzero"`
	FreeboardM units.Length       `json:"freeboard_m,omitzero"` // from the mark to the rim
	SetC       *units.Temperature `json:"set_c,omitzero"`
	MaxC       *units.Temperature `json:"max_c,omitzero"` // top of the working band
	Lid        *bool              `json:"lid,omitzero"`   // kept lidded between washes
	Insulated  *bool              `json:"insulated,omitzero"`
	Sewer      string             `json:"sewer,omitzero"` // permission on file for the drain: number and date
	Product    string             `json:"product,omitzero"`
	Ratio      float64            `json:"ratio,omitzero"`       // parts to 1
	Strongest  float64            `json:"strongest,omitzero"`   // the strongest the product's paper allows, parts to 1
	Family     string             `json:"family,omitzero"`      // soap type: what carries the pH
	BuilderPct float64            `json:"builder_pct,omitzero"` // of the product by weight, from its data sheet
	ContainerL units.Volume       `json:"container_l,omitzero"`
	Container  string             `json:"container,omitzero"` // jug, pail
}

// usualTank is what holds of a tank until the station says otherwise: a heater
// of 6 kW (from memory: read its plate).
var usualTank = Tank{HeaterW: 6000, SetC: new(DefaultSet), MaxC: new(DefaultMax)}

// DefaultSet is the set point of a tank that names none: 122 °F, inside the
// working band and below what cylinders stand.
const DefaultSet = units.Temperature(50)

// DefaultMax is the top of the working band unless set: 130 °F (common
// practice, no source).
var DefaultMax = units.Fahrenheit(130)

// Set is the set point.
func (t Tank) Set() units.Temperature { return or(t.SetC, DefaultSet) }

// Max is the top of the working band: above it everything stops.
func (t Tank) Max() units.Temperature { return or(t.MaxC, DefaultMax) }

// Heater is the heater's power.
func (t Tank) Heater() units.Power {
	if t.HeaterW > 0 {
		return t.HeaterW
	}
	return usualTank.HeaterW
}

// Room is how much the bath may rise from its mark to its rim; 0 where the
// station has not said.
func (t Tank) Room() units.Volume {
	return units.Volume(1000 * float64(t.FreeboardM) * float64(t.SurfaceM2))
}

// Containers says a volume of the product in what it comes in: "2 jugs".
// It is empty where the tank does not know the container.
func (t Tank) Containers(v units.Volume) string {
	if t.ContainerL <= 0 || t.Container == "" {
		return ""
	}
	return plural(float64(v/t.ContainerL), t.Container)
}

var tankSpec = &Spec{
	Kind: "tank", Title: "Add or change a tank", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Tank) }, usual: &usualTank,
	Fields: []Field{
		field("name", "name", "Bay 2 bath", func(t *Tank) *string { return &t.Name }).optional("as the top line shows it"),
		field("volume", "volume to the mark", "64gal", func(t *Tank) *units.Volume { return &t.VolumeL }).optional("what it holds, filled to the mark"),
		field("mark", "the mark", "middle of the return pipe", func(t *Tank) *string { return &t.Mark }).optional("where it is, in your own words"),
		field("low", "heater's low mark", "52gal", func(t *Tank) *units.Volume { return &t.LowL }).optional("what is left when the heater must be off"),
		field("heater", "heater", "6kW", func(t *Tank) *units.Power { return &t.HeaterW }).optional("from its plate"),
		field("surface", "water surface", "0.3m2", func(t *Tank) *units.Area { return &t.SurfaceM2 }).optional("length times width"),
		field("freeboard", "mark to rim", "4in", func(t *Tank) *units.Length { return &t.FreeboardM }).optional("how much higher the tank is than its mark"),
		field("set", "set point", "122F", func(t *Tank) **units.Temperature { return &t.SetC }).optional("what the heater is set to for washing"),
		field("max", "hottest allowed", "130F", func(t *Tank) **units.Temperature { return &t.MaxC }).optional("top of the working band"),
		field("lid", "lid between washes", "yes", func(t *Tank) **bool { return &t.Lid }).optional("is the bath kept under its lid?"),
		field("insulated", "insulated", "yes", func(t *Tank) **bool { return &t.Insulated }).optional("are its walls?"),
		field("sewer", "sewer permission", "permit 12, 2026-03-01", func(t *Tank) *string { return &t.Sewer }).optional("number and date of what is on file"),
		field("product", "detergent", "alkaline liquid", func(t *Tank) *string { return &t.Product }).optional("as its label says"),
		field("ratio", "ratio", "30", func(t *Tank) *float64 { return &t.Ratio }).optional("parts to 1"),
		field("strongest", "strongest ratio", "15", func(t *Tank) *float64 { return &t.Strongest }).optional("the strongest its paper allows, parts to 1"),
		field("family", "soap type", "soda-ash", func(t *Tank) *string { return &t.Family }).words(soapTypes()...).optional("what carries the pH, from the data sheet"),
		field("builder", "builder, %", "8", func(t *Tank) *float64 { return &t.BuilderPct }).optional("of it in the product by weight, from the data sheet"),
		field("container-size", "container holds", "1gal", func(t *Tank) *units.Volume { return &t.ContainerL }).optional("how it is bought"),
		field("container", "container", "jug", func(t *Tank) *string { return &t.Container }).optional("what you call it"),
	},
}

// soapTypes are the words for a family of builders.
func soapTypes() []string {
	words := []string{chem.Unknown}
	for _, f := range chem.Families {
		words = append(words, f.Name)
	}
	return words
}

// isBathID reports whether id is one that people can type after --bath: 1 to 20
// letters, digits, hyphens and low lines. It is no regular expression: one over
// all letters takes milliseconds of each start of the program to compile.
func isBathID(id string) bool {
	other := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && r != '_' && r != '-' }
	n := utf8.RuneCountInString(id)
	return n >= 1 && n <= 20 && utf8.ValidString(id) && !strings.ContainsFunc(id, other)
}

func (t *Tank) spec() *Spec { return tankSpec }

func (t *Tank) check(v view, e Entry) error {
	if *t == (Tank{}) {
		return refuse("missing", "nothing about the tank was given: name something, like --volume 64gal")
	}
	if e.Bath == "" {
		return refuse("missing", "which bath is it? Give its id, like --bath main")
	}
	if !isBathID(e.Bath) {
		return refuse("input", "%q is not an id of a bath: letters, digits, - and _ are allowed, at most 20, like main", short(clean(e.Bath)))
	}
	next := *t
	if b, err := v.s.Bath(e.Bath); err == nil {
		next = b.Tank
		merge(tankSpec, &next, t)
	}
	return next.sane(v.sys)
}

// sane holds for a tank as a whole.
func (t Tank) sane(sys sysText) error {
	switch {
	case t.VolumeL <= 0:
		return refuse("missing", "how much does the tank hold to the mark? Give it like --volume 64gal")
	case t.VolumeL > 5000:
		return refuse("input", "%s to the mark is no tank for baskets: check the unit", sys.vol(t.VolumeL))
	case t.LowL >= t.VolumeL:
		return refuse("input", "the heater's low mark (%s) must lie below the mark (%s)", sys.vol(t.LowL), sys.vol(t.VolumeL))
	case t.Set() < 20 || t.Set() > 80:
		return refuse("input", "a set point of %s is not one for a bath: 68 to 176 °F (20 to 80 °C) are allowed", sys.temp(t.Set()))
	case t.Max() < t.Set():
		most, set := sys.pair(t.Max(), t.Set())
		return refuse("input", "the hottest allowed (%s) lies below the set point (%s): raise it or lower the set point", most, set)
	case t.BuilderPct < 0 || t.BuilderPct > 100:
		return refuse("input", "%g %% of builder is not possible: 0 to 100 are allowed, from the data sheet", t.BuilderPct)
	case t.Ratio < 0 || t.Ratio > 0 && t.Ratio < 1 || t.Ratio > 1000:
		return refuse("input", "a ratio of %g to 1 is not one for a bath: 1 to 1000 are allowed", t.Ratio)
	case t.Strongest > 0 && t.Ratio > 0 && t.Strongest > t.Ratio:
		return refuse("input", "the ratio %g to 1 is stronger than the strongest allowed, %g to 1: give a larger number", t.Ratio, t.Strongest)
	}
	return nil
}

func (t *Tank) apply(s *State, e Entry) {
	for _, b := range s.Baths {
		if strings.EqualFold(b.ID, e.Bath) {
			merge(tankSpec, &b.Tank, t)
			return
		}
	}
	s.Baths = append(s.Baths, &Bath{ID: e.Bath, Tank: *t})
}

func (t *Tank) say(sys units.System) string { return "tank: " + fieldList(tankSpec, t, sys) }
