package bath

import (
	"strings"

	"bathside/internal/units"
)

// What a cylinder is made of, as its own record says; it is never guessed.
const (
	BuiltCarbon    = "carbon"  // fully wrapped
	BuiltWrapped   = "wrapped" // hoop-wrapped, fibreglass, aramid
	BuiltSteel     = "steel"
	BuiltAluminium = "aluminium"
)

// Gear is the record of one tagged piece; recording a tag again changes it.
type Gear struct {
	Tag         string `json:"tag"`
	Item        string `json:"item,omitzero"`
	Model       string `json:"model,omitzero"`
	Serial      string `json:"serial,omitzero"`
	Made        Month  `json:"made,omitzero"`
	IssuedTo    string `json:"issued_to,omitzero"`
	Built       string `json:"built,omitzero"`
	Requalified Month  `json:"requalified,omitzero"`
	Ends        Month  `json:"ends,omitzero"`
	Gone        string `json:"gone,omitzero"` // how it left: retired, destroyed, lost
}

var gearSpec = &Spec{
	Kind: "gear", Title: "Register or change a piece of gear", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Gear) },
	Fields: []Field{
		field("tag", "tag", "M-12", func(g *Gear) *string { return &g.Tag }).help("as typed, or as the scanner reads it"),
		field("item", "item type", "mask", func(g *Gear) *string { return &g.Item }).optional("needed for a new tag"),
		field("model", "model", "as marked", func(g *Gear) *string { return &g.Model }).optional("as marked on it"),
		field("serial", "serial number", "40117", func(g *Gear) *string { return &g.Serial }).optional("as marked on it"),
		field("made", "made", "2019-03", func(g *Gear) *Month { return &g.Made }).optional("month of manufacture"),
		field("issued-to", "issued to", "Ana Reyes", func(g *Gear) *string { return &g.IssuedTo }).optional("a member, a seat or a rig"),
		field("built", "cylinder of", BuiltCarbon, func(g *Gear) *string { return &g.Built }).words(BuiltCarbon, BuiltWrapped, BuiltSteel, BuiltAluminium).optional("from its own record"),
		field("requalified", "requalified", "2024-05", func(g *Gear) *Month { return &g.Requalified }).optional("the last stamp on the cylinder"),
		field("ends", "life ends", "2034-03", func(g *Gear) *Month { return &g.Ends }).optional("where its record says so"),
		field("gone", "gone, how", "retired and destroyed", func(g *Gear) *string { return &g.Gone }).optional("out of service for good"),
	},
}

func (g *Gear) spec() *Spec { return gearSpec }

// longestTag is the longest tag, in letters: the list shows it whole.
const longestTag = 16

func (g *Gear) check(v view, e Entry) error {
	_, known := v.s.Piece(g.Tag)
	switch {
	case g.Tag == "":
		return refuse("missing", "the piece has no tag: give one, like M-12")
	case len([]rune(g.Tag)) > longestTag || strings.ContainsAny(g.Tag, ",;="):
		return refuse("input", "%q is not a tag: at most %d letters and figures, without commas", short(g.Tag), longestTag)
	case !known && g.Item == "":
		return refuse("missing", "tag %s is new: say what it is, like --item mask", g.Tag)
	case g.Made != Month{} && g.Made.first(e.At.Location()).After(e.At):
		return refuse("input", "made %s is in the future: give the month stamped on it, like 2019-03", g.Made.Say())
	case g.Requalified != Month{} && g.Requalified.first(e.At.Location()).After(e.At):
		return refuse("input", "requalified %s is in the future: give the last stamp, like 2024-05", g.Requalified.Say())
	}
	return nil
}

func (g *Gear) apply(s *State, _ Entry) {
	if i := s.pieceAt(g.Tag); i >= 0 {
		s.Gear[i].Gear = s.Gear[i].Gear.With(*g)
		return
	}
	s.Gear = append(s.Gear, Piece{Gear: *g})
}

// With is g changed by a later record of the same tag: what that leaves out
// stays as it was, but gear that is not said to be gone is back.
func (g Gear) With(later Gear) Gear {
	tag := g.Tag
	merge(gearSpec, &g, &later)
	g.Tag, g.Gone = tag, later.Gone
	return g
}

func (g *Gear) say(sys units.System) string {
	s := "gear " + g.Tag + suffix(", ", g.Item)
	if g.Gone != "" {
		return s + ", gone: " + g.Gone
	}
	for _, f := range gearSpec.Fields[2:] {
		if text := f.Get(g, sys); text != "" {
			s += ", " + f.Label + " " + text
		}
	}
	return s
}
