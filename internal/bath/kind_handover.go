package bath

import "bathside/internal/units"

// Handover is a note from one shift to the next.
type Handover struct {
	Note string `json:"note"`
}

var handoverSpec = &Spec{
	Kind: "handover", Title: "Hand over to the next shift", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Handover) },
	Fields: []Field{
		field("note", "note", "packs still drip", func(h *Handover) *string { return &h.Note }).help("what the next shift must know"),
	},
}

func (h *Handover) spec() *Spec { return handoverSpec }

func (h *Handover) check(view, Entry) error {
	if h.Note == "" {
		return refuse("missing", "the note is empty: write what the next shift must know")
	}
	return nil
}

// notesKept is how many handover notes State holds; the journal has them all.
const notesKept = 8

func (h *Handover) apply(s *State, e Entry) {
	s.Notes = append(s.Notes, e)
	if n := len(s.Notes); n > notesKept {
		s.Notes = s.Notes[n-notesKept:]
	}
}

func (h *Handover) say(units.System) string { return h.Note }
