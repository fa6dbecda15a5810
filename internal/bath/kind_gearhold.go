package bath

import (
	"fmt"

	"bathside/internal/units"
)

// GearHold keeps gear from use: one tagged piece, or all that is still in care
// of one wash. Anyone may hang such a tag.
type GearHold struct {
	Tag  string `json:"tag,omitzero"`
	Wash uint64 `json:"wash,omitzero"`
	Why  string `json:"why"`
}

// GearRelease lifts it.
type GearRelease struct {
	Tag  string `json:"tag,omitzero"`
	Wash uint64 `json:"wash,omitzero"`
	Why  string `json:"why"`
}

var (
	gearHoldSpec = &Spec{
		Kind: "gear-hold", Title: "Red tag a piece of gear", Scope: OfStation, Role: Crew,
		New: func() Body { return new(GearHold) },
		Fields: []Field{
			field("why", "why", "lens cracked", func(h *GearHold) *string { return &h.Why }).help("one line for everybody who comes after"),
			field("tag", "tag", "M-12", func(h *GearHold) *string { return &h.Tag }).optional("the piece"),
			field("wash", "or washed in line", "41", func(h *GearHold) *uint64 { return &h.Wash }).optional("all of that wash that is not back in service"),
		},
	}
	gearReleaseSpec = &Spec{
		Kind: "gear-release", Title: "Lift the red tag of gear", Scope: OfStation, Role: Officer,
		New: func() Body { return new(GearRelease) },
		Fields: []Field{
			field("why", "what was done", "lens renewed by the technician", func(r *GearRelease) *string { return &r.Why }).help("why it is safe to use again"),
			field("tag", "tag", "M-12", func(r *GearRelease) *string { return &r.Tag }).optional("the piece"),
			field("wash", "or washed in line", "41", func(r *GearRelease) *uint64 { return &r.Wash }).optional("all of that wash that is not back in service"),
		},
	}
)

func (h *GearHold) spec() *Spec    { return gearHoldSpec }
func (r *GearRelease) spec() *Spec { return gearReleaseSpec }

func (h *GearHold) check(v view, _ Entry) error {
	if h.Why == "" {
		return refuse("missing", "what is wrong with it? Say it in one line, like: lens cracked")
	}
	_, _, err := v.gear(h.Tag, h.Wash)
	return err
}

func (r *GearRelease) check(v view, _ Entry) error {
	if r.Why == "" {
		return refuse("missing", "what was done? Say in one line why it is safe to use again")
	}
	p, batches, err := v.gear(r.Tag, r.Wash)
	if err != nil {
		return err
	}
	held := p.Hold != nil
	for _, b := range batches {
		held = held || b.Hold != nil
	}
	if b, ok := v.s.batchOf(r.Tag); !held && ok && b.Hold != nil {
		return refuse("not-held", "%s is held with all that is left of line %d: lift that", p.Tag, b.Wash)
	}
	if !held {
		return refuse("not-held", "%s is not held: there is nothing to lift", gearSay(r.Tag, r.Wash))
	}
	return nil
}

// gear finds what a red tag is about: a piece, or the batches of a wash.
func (v view) gear(tag string, wash uint64) (Piece, []Batch, error) {
	switch p, ok := v.s.Piece(tag); {
	case tag != "" && wash != 0, tag == "" && wash == 0:
		return p, nil, refuse("missing", "which gear is it? Give its tag, or the line of its wash")
	case tag != "" && !ok:
		return p, nil, refuse("tag", "tag %s is not in the gear list: a gear officer registers it, or give the line of its wash", short(tag))
	case tag != "":
		return p, nil, nil
	}
	var found []Batch
	for _, b := range v.s.Baths {
		for _, x := range b.Batches {
			if x.Wash == wash {
				found = append(found, x)
			}
		}
	}
	if len(found) == 0 {
		return Piece{}, nil, refuse("no-batch", "nothing of line %d is in care: it is back in service, or that line is no clean wash", wash)
	}
	return Piece{}, found, nil
}

func gearSay(tag string, wash uint64) string {
	if tag != "" {
		return tag
	}
	return fmt.Sprintf("what was washed in line %d", wash)
}

func (h *GearHold) apply(s *State, e Entry) {
	held := Held{e.Seq, e.At, e.By, h.Why}
	if i := s.pieceAt(h.Tag); h.Tag != "" && i >= 0 {
		s.Gear[i].hold(held)
	}
	s.eachBatch(h.Wash, func(b *Batch) { b.hold(held) })
}

func (r *GearRelease) apply(s *State, _ Entry) {
	if i := s.pieceAt(r.Tag); r.Tag != "" && i >= 0 {
		s.Gear[i].Hold = nil
	}
	s.eachBatch(r.Wash, func(b *Batch) { b.Hold = nil })
}

// eachBatch changes what is in care of the wash of a line; 0 is none.
func (s *State) eachBatch(wash uint64, change func(*Batch)) {
	for _, b := range s.Baths {
		for i := range b.Batches {
			if wash != 0 && b.Batches[i].Wash == wash {
				change(&b.Batches[i])
			}
		}
	}
}

func (b *Batch) hold(h Held) {
	if b.Hold == nil {
		b.Hold = &h
	}
}

func (h *GearHold) say(units.System) string {
	return "red tag on " + gearSay(h.Tag, h.Wash) + ": " + h.Why
}

func (r *GearRelease) say(units.System) string {
	return "red tag of " + gearSay(r.Tag, r.Wash) + " lifted: " + r.Why
}
