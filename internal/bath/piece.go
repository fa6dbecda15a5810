package bath

import (
	"slices"
	"strings"
	"time"
)

// Piece is one tagged piece of gear: what its record says, and what has become
// of it since.
type Piece struct {
	Gear
	Washes    int         `json:"washes,omitzero"`
	Cleaned   []time.Time `json:"cleaned,omitempty"` // the last two washes that count as proper cleaning, newest last
	In        []Washed    `json:"in,omitempty"`      // its last wash in each bath
	Inspected *time.Time  `json:"inspected,omitzero"`
	Again     bool        `json:"again,omitzero"` // came out not clean, to be washed again
	Hold      *Held       `json:"hold,omitzero"`
}

// Washed is a wash that a piece was in.
type Washed struct {
	Bath string    `json:"bath"`
	Seq  uint64    `json:"seq"`
	At   time.Time `json:"at"`
}

// Held is why something is kept from use.
type Held struct {
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
	Why string    `json:"why"`
}

// LastWash is when the piece was last washed, in whatever bath.
func (p Piece) LastWash() (last Washed, ok bool) {
	for _, w := range p.In {
		if !ok || w.At.After(last.At) {
			last, ok = w, true
		}
	}
	return last, ok
}

// Piece finds a tagged piece of gear by its tag.
func (s *State) Piece(tag string) (Piece, bool) {
	if i := s.pieceAt(tag); i >= 0 {
		return s.Gear[i], true
	}
	return Piece{}, false
}

func (s *State) pieceAt(tag string) int {
	tag = strings.TrimSpace(tag)
	return slices.IndexFunc(s.Gear, func(p Piece) bool { return strings.EqualFold(p.Tag, tag) })
}

// Where a tagged piece stands. Between a wash and its release it is the word
// of the next step of its care.
const (
	GearInService = "in service"
	GearWaiting   = "waiting" // to be washed again
	GearInBath    = "in bath"
	GearReady     = "ready" // every step is done; a key holder releases it
	GearHeld      = "held"
	GearOut       = "out"
)

// Where says where a piece stands: one of the words above, or the step of its
// care that comes next.
func (s *State) Where(p Piece) string {
	switch {
	case p.Gone != "":
		return GearOut
	case p.Hold != nil:
		return GearHeld
	}
	for _, b := range s.Baths {
		if b.Run != nil && b.Run.Tags.has(p.Tag) {
			return GearInBath
		}
	}
	if batch, ok := s.batchOf(p.Tag); ok {
		return batch.Where()
	}
	if p.Again {
		return GearWaiting
	}
	return GearInService
}

// batchOf finds the batch that a tag is part of.
func (s *State) batchOf(tag string) (Batch, bool) {
	for _, b := range s.Baths {
		for _, batch := range slices.Backward(b.Batches) {
			if batch.Tags.has(tag) {
				return batch, true
			}
		}
	}
	return Batch{}, false
}

// washedIn writes a wash into the record of a piece.
func (p *Piece) washedIn(w Washed, result string, outside bool) {
	p.Washes++
	p.In = append(slices.DeleteFunc(slices.Clone(p.In), func(x Washed) bool { return x.Bath == w.Bath && !x.At.After(w.At) }), w)
	p.Again = result != ResultClean
	if result == ResultClean && !outside {
		p.Cleaned = append(slices.Clone(p.Cleaned), w.At)
		slices.SortFunc(p.Cleaned, time.Time.Compare)
		p.Cleaned = p.Cleaned[max(0, len(p.Cleaned)-2):]
	}
}

// inspected notes the last time somebody looked a piece over.
func (p *Piece) inspectedAt(t time.Time) {
	if p.Inspected == nil || t.After(*p.Inspected) {
		p.Inspected = &t
	}
}

// hold keeps a piece from use; what holds it already stays.
func (p *Piece) hold(h Held) {
	if p.Hold == nil {
		p.Hold = &h
	}
}
