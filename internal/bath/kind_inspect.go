package bath

import "bathside/internal/units"

// Inspect is the inspection of tagged gear between washes, with what a
// certificate carries: date, tag or serial number, inspector, findings, action.
type Inspect struct {
	Tags      Tags   `json:"tags"`
	Findings  string `json:"findings"`
	Action    string `json:"action"`
	Inspector string `json:"inspector,omitzero"`
}

var inspectSpec = &Spec{
	Kind: "inspect", Title: "Inspect tagged gear", Scope: OfStation, Role: Crew,
	New: func() Body { return &Inspect{Findings: "none", Action: "none"} },
	Fields: []Field{
		field("tags", "tags", "M-12, M-14", func(i *Inspect) *Tags { return &i.Tags }).help("what was looked over, commas between"),
		field("findings", "findings", "none", func(i *Inspect) *string { return &i.Findings }).optional("what was found; none, if left out"),
		field("action", "action needed", "none", func(i *Inspect) *string { return &i.Action }).optional("what is to be done; none, if left out"),
		field("inspector", "inspector", "Ana Reyes", func(i *Inspect) *string { return &i.Inspector }).optional("you, if left out"),
	},
}

func (i *Inspect) spec() *Spec { return inspectSpec }

func (i *Inspect) check(v view, _ Entry) error {
	if len(i.Tags) == 0 {
		return refuse("missing", "what was looked over? Give tags like M-12, M-14")
	}
	for n, tag := range i.Tags {
		switch _, ok := v.s.Piece(tag); {
		case !ok:
			return refuse("tag", "tag %s is not in the gear list: a gear officer registers it first", short(clean(tag)))
		case i.Tags[:n].has(tag):
			return refuse("twice", "tag %s is in the list twice: give it once", tag)
		}
	}
	return nil
}

func (i *Inspect) apply(s *State, e Entry) { s.inspected(i.Tags, e) }

func (i *Inspect) say(units.System) string {
	return "inspected " + i.Tags.String() + " · findings: " + i.Findings + " · action: " + i.Action + suffix(" · by ", i.Inspector)
}
