package bath

import (
	"fmt"

	"bathside/internal/units"
)

// Why a bath is red-tagged.
const (
	HoldContaminated = "contaminated"
	HoldLeak         = "leak"
	HoldHeater       = "heater"
	HoldUltrasound   = "ultrasound"
	HoldFoil         = "foil"
	HoldLocked       = "locked-out"
	HoldOther        = "other"
)

// Hold hangs a red tag on the bath: no wash starts until a gear officer lifts
// it. Anyone may hang one.
type Hold struct {
	Cause string `json:"kind"`
	Why   string `json:"why"`
	Wash  uint64 `json:"wash,omitzero"` // that contaminated it: what was in it or after it is held
}

var holdSpec = &Spec{
	Kind: "hold", Title: "Red tag the bath", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Hold) },
	Fields: []Field{
		field("kind", "what is wrong", "heater", func(h *Hold) *string { return &h.Cause }).
			words(HoldContaminated, HoldLeak, HoldHeater, HoldUltrasound, HoldFoil, HoldLocked, HoldOther).help("heater, ultrasound and power off first"),
		field("why", "why", "trips the breaker", func(h *Hold) *string { return &h.Why }).help("one line for everybody who comes after"),
		field("wash", "since the wash of line", "41", func(h *Hold) *uint64 { return &h.Wash }).optional("contaminated: what was washed in it or after it is held too"),
	},
}

func (h *Hold) spec() *Spec { return holdSpec }

func (h *Hold) check(v view, _ Entry) error {
	if h.Why == "" || h.Cause == "" {
		return refuse("missing", "what is wrong with the bath? Say it in one line, like: trips the breaker")
	}
	return h.checkLookBack(v)
}

// applyBath hangs the tag; the first one stays while it hangs, but a
// contamination outweighs every other cause.
func (h *Hold) applyBath(b *Bath, e Entry) {
	if h.Cause == HoldContaminated {
		b.spoil(h.since(b, e))
	}
	if b.Tag == nil || h.Cause == HoldContaminated && b.Tag.Kind != HoldContaminated {
		b.Tag = &Tag{Seq: e.Seq, At: e.At, By: e.By, Kind: h.Cause, Why: h.Why, Wash: h.Wash}
		return
	}
	if t := *b.Tag; h.Wash != 0 && t.Kind == HoldContaminated && (t.Wash == 0 || h.Wash < t.Wash) {
		t.Wash = h.Wash
		b.Tag = &t
	}
}

func (h *Hold) say(units.System) string {
	s := "red tag, " + h.Cause + ": " + h.Why
	if h.Wash != 0 {
		s += fmt.Sprintf(" · what was washed in line %d or after it is held", h.Wash)
	}
	return s
}

// Release lifts the red tag.
type Release struct {
	Why string `json:"why"`
}

var releaseSpec = &Spec{
	Kind: "release", Title: "Lift the red tag", Scope: OfBath, Role: Officer,
	New: func() Body { return new(Release) },
	Fields: []Field{
		field("why", "what was done", "element replaced and tested", func(r *Release) *string { return &r.Why }).help("why it is safe to use again"),
	},
}

func (r *Release) spec() *Spec { return releaseSpec }

func (r *Release) check(v view, _ Entry) error {
	if v.b.Tag == nil {
		return refuse("no-tag", "no red tag hangs on bath %s: there is nothing to lift", v.b.ID)
	}
	if r.Why == "" {
		return refuse("missing", "what was done? Say in one line why the bath is safe to use again")
	}
	if v.b.Tag.Kind == HoldContaminated && v.open {
		return refuse("contaminated", "the bath is contaminated, and filtering clears nothing: drain it with the liquid held for the authority, clean the tank, then lift the tag")
	}
	return nil
}

func (r *Release) applyBath(b *Bath, _ Entry) { b.Tag = nil }

func (r *Release) say(units.System) string { return "red tag lifted: " + r.Why }
