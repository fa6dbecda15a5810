package bath

import "bathside/internal/units"

// Why water was added: for what turned to vapour nothing else was lost; what
// went out on the gear or was spilled took soap with it.
const (
	CauseEvaporation = "evaporation"
	CauseCarryOut    = "carry-out"
	CauseSpill       = "spill"
)

// Water is make-up: the mark was looked at, and water added to it. A volume
// of 0 says that the level stood at the mark.
type Water struct {
	VolumeL units.Volume  `json:"volume_l"`
	Cause   string        `json:"cause"`
	BelowL  *units.Volume `json:"below_l,omitzero"` // how much was missing before, where it was not made up whole
}

var waterSpec = &Spec{
	Kind: "water", Title: "Check the mark, add water", Scope: OfFill, Role: Crew, held: true,
	New: func() Body { return &Water{Cause: CauseEvaporation} },
	Fields: []Field{
		field("volume", "water added", "3gal", func(w *Water) *units.Volume { return &w.VolumeL }).help("baskets out, up to the mark; 0gal where it stood there"),
		field("for", "what for", "evaporation", func(w *Water) *string { return &w.Cause }).
			words(CauseEvaporation, CauseCarryOut, CauseSpill).optional("carry-out: it went out on the gear"),
		field("below", "missing before", "4gal", func(w *Water) **units.Volume { return &w.BelowL }).optional("only if you did not fill up to the mark"),
	},
}

func (w *Water) spec() *Spec { return waterSpec }

func (w *Water) check(v view, _ Entry) error {
	t := v.b.Tank
	room := t.VolumeL - t.LowL
	if w.BelowL != nil {
		room = *w.BelowL
	}
	switch {
	case w.BelowL != nil && *w.BelowL > t.VolumeL:
		return refuse("input", "%s missing is more than the tank holds (%s): check the unit", v.sys.vol(*w.BelowL), v.sys.vol(t.VolumeL))
	case w.VolumeL > room && t.LowL > 0 && w.BelowL == nil:
		return refuse("too-full", "%s is beyond the mark: between it and the heater's low mark there is room for %s; check the unit, or give what was missing", v.sys.vol(w.VolumeL), v.sys.vol(room))
	case w.VolumeL > room:
		return refuse("too-full", "%s is beyond the mark: at most %s can have been missing; check the unit", v.sys.vol(w.VolumeL), v.sys.vol(room))
	}
	return nil
}

func (w *Water) say(sys units.System) string {
	if w.VolumeL == 0 {
		if w.BelowL != nil && *w.BelowL > 0 {
			return "mark checked, " + sys.Text(*w.BelowL) + " missing"
		}
		return "mark checked, nothing to add"
	}
	return sys.Text(w.VolumeL) + " of water for " + w.Cause
}
