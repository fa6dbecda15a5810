package bath

import "bathside/internal/units"

// Clean is the empty tank wiped out.
type Clean struct {
	Sludge  string   `json:"sludge,omitzero"`  // where the sludge went
	Paper   string   `json:"paper,omitzero"`   // the hauler's bill or manifest
	Allowed string   `json:"allowed,omitzero"` // by whom, where the bath was contaminated
	Note    string   `json:"note,omitzero"`
	Outside []string `json:"outside,omitzero"`
}

var cleanSpec = &Spec{
	Kind: "clean", Title: "Clean the tank", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Clean) },
	Fields: []Field{
		field("sludge", "sludge to", "hauler", func(c *Clean) *string { return &c.Sludge }).words("none", RouteHauler, RouteHold).optional("its own waste: never down the drain unasked"),
		field("paper", "bill or manifest", "bill 2207", func(c *Clean) *string { return &c.Paper }).optional("number of the hauler's paper"),
		field("allowed", "allowed by", "R. Quill, sewer district", func(c *Clean) *string { return &c.Allowed }).optional("contaminated: who said that it may leave"),
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

// outside lists what was sent on though it is held.
func (c *Clean) outside(v view, e Entry) []string {
	if !v.b.foul(e, e.Seq > v.s.Seq) {
		return nil
	}
	return foulOutside(StreamSludge, c.Sludge, c.Allowed)
}

// SetOutside marks what the cleaning passed over, before it is recorded.
func (c *Clean) SetOutside(why []string) { c.Outside = why }

// applyBath holds back what was not sent on.
func (c *Clean) applyBath(b *Bath, e Entry) { b.keep(e, c.Sludge, Waste{Stream: StreamSludge}) }

func (c *Clean) say(units.System) string {
	return "tank cleaned" + suffix(", sludge to ", c.Sludge) + suffix(", paper ", c.Paper) + suffix(", allowed by ", c.Allowed) + suffix(" · ", c.Note) + outsideSay(c.Outside)
}
