package bath

import (
	"slices"
	"time"
)

// A contaminated bath looks back: what was washed in the wash that brought it
// in, or after it, is held, also where it is back in service. Gear without a
// tag is held while it is in care; what of it went back can only be named.

// checkLookBack refuses a look-back to a line that is no wash of the bath.
func (h *Hold) checkLookBack(v view) error {
	if h.Wash == 0 {
		return nil
	}
	if h.Cause != HoldContaminated {
		return refuse("input", "a wash is named only where the bath is contaminated: leave it out")
	}
	i := slices.IndexFunc(v.b.Entries, func(e Entry) bool { return e.Seq == h.Wash })
	switch {
	case i >= 0:
		switch v.b.Entries[i].Body.(type) {
		case *Wash, *Start:
			return nil
		}
	case len(v.b.Past) > 0 && h.Wash < v.b.firstSeq(): // summed up: its number is all that is left of it
		return nil
	}
	return refuse("no-wash", "line %d is no wash of bath %s: give the number of the one that brought it in", h.Wash, v.b.ID)
}

// firstSeq is the lowest line that b still holds.
func (b *Bath) firstSeq() (low uint64) {
	for _, e := range b.Entries {
		if low == 0 || e.Seq < low {
			low = e.Seq
		}
	}
	return low
}

// when is the time of a line that b still holds, else zero.
func (b *Bath) when(seq uint64) time.Time {
	if i := slices.IndexFunc(b.Entries, func(e Entry) bool { return e.Seq == seq }); i >= 0 {
		return b.Entries[i].At
	}
	return time.Time{}
}

// lookBack holds what was washed in b in the wash of a line or after it.
func (b *Bath) lookBack(s *State, wash uint64, held Held) {
	from := b.when(wash)
	after := func(seq uint64, at time.Time) bool {
		if from.IsZero() {
			return seq >= wash
		}
		return !at.Before(from)
	}
	for i := range b.Batches {
		if x := &b.Batches[i]; after(x.Wash, x.At) {
			x.hold(held)
		}
	}
	for i := range s.Gear {
		if slices.ContainsFunc(s.Gear[i].In, func(w Washed) bool { return w.Bath == b.ID && after(w.Seq, w.At) }) {
			s.Gear[i].hold(held)
		}
	}
}

// from is since when the bath was contaminated, as far as is known.
func (t *Tag) from(b *Bath) time.Time {
	if at := b.when(t.Wash); t.Wash != 0 && !at.IsZero() && at.Before(t.At) {
		return at
	}
	return t.At
}

// applyGear holds what the look-back finds.
func (h *Hold) applyGear(s *State, b *Bath, e Entry) {
	if h.Cause == HoldContaminated && h.Wash != 0 {
		b.lookBack(s, h.Wash, Held{e.Seq, e.At, e.By, "contaminated bath: " + h.Why})
	}
}

// applyGear makes batches of what came clean, and writes the wash into the
// records of tagged pieces. What comes out of a contaminated bath is held.
func (w *Wash) applyGear(s *State, b *Bath, e Entry) {
	for _, tag := range w.Tags {
		i := s.pieceAt(tag)
		if i < 0 {
			continue // its record was crossed out
		}
		s.takeTagged(tag)
		s.Gear[i].washedIn(Washed{b.ID, e.Seq, e.At}, w.Result, len(w.Outside) > 0)
		if w.Result == ResultDamaged {
			s.Gear[i].hold(Held{e.Seq, e.At, e.By, "damaged in the wash" + suffix(": ", w.Note)})
		}
	}
	if w.Result == ResultClean {
		b.washed(s, w, e)
	}
	if t := b.Tag; t != nil && t.Kind == HoldContaminated && !e.At.Before(t.from(b)) {
		b.lookBack(s, e.Seq, Held{t.Seq, e.At, t.By, "contaminated bath: " + t.Why})
	}
}
