package bath

import "bathside/internal/units"

// Clean is the empty tank wiped out.
type Clean struct {
	Sludge string `json:"sludge,omitzero"` // where the sludge went
	Note   string `json:"note,omitzero"`
}

var cleanSpec = &Spec{
	Kind: "clean", Title: "Clean the tank", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Clean) },
	Fields: []Field{
		field("sludge", "sludge to", "hauler", func(c *Clean) *string { return &c.Sludge }).words("none", RouteHauler, RouteHold).optional("its own waste: never down the drain unasked"),
		field("note", "note", "scale on the heater", func(c *Clean) *string { return &c.Note }).optional("what was found"),
	},
}

func (c *Clean) spec() *Spec { return cleanSpec }

func (c *Clean) check(v view, e Entry) error {
	if v.open && !e.At.Before(v.life.Fill.At) {
		return refuse("fill-open", "fill %d is still in the tank: log its drain first, then the cleaning", v.life.Number)
	}
	return nil
}

func (c *Clean) say(units.System) string {
	return "tank cleaned" + suffix(", sludge to ", c.Sludge) + suffix(" · ", c.Note)
}
