package bath

import "bathside/internal/units"

// Spill is liquid that went where it should not. It can always be written
// down.
type Spill struct {
	VolumeL units.Volume `json:"volume_l"`
	To      string       `json:"to"`
	Note    string       `json:"note,omitzero"`
}

var spillSpec = &Spec{
	Kind: "spill", Title: "Log a spill", Scope: OfBath, Role: Crew, held: true,
	New: func() Body { return new(Spill) },
	Fields: []Field{
		field("volume", "how much", "1gal", func(s *Spill) *units.Volume { return &s.VolumeL }).help("about, if nobody measured it"),
		field("to", "where to", "floor", func(s *Spill) *string { return &s.To }).words("floor", "drain", "outside").help("outside the building: call whom your plan names"),
		field("note", "note", "absorbed, bagged", func(s *Spill) *string { return &s.Note }).optional("what was done"),
	},
}

func (s *Spill) spec() *Spec { return spillSpec }

func (s *Spill) check(v view, _ Entry) error {
	if s.VolumeL <= 0 || s.VolumeL > v.b.Tank.VolumeL*1.1 {
		return refuse("input", "%s spilled is not possible: this tank holds %s; check the unit", v.sys.vol(s.VolumeL), v.sys.vol(v.b.Tank.VolumeL))
	}
	return nil
}

func (s *Spill) say(sys units.System) string {
	return sys.Text(s.VolumeL) + " spilled, to the " + s.To + suffix(" · ", s.Note)
}
