package station

import (
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/journal"
)

// Ask says when an act asks for a PIN.
type Ask int

// The zero Ask is AskNever.
const (
	AskNever Ask = iota
	AskOnce      // in a wash session: Draft.Session will do
	AskEach      // every time
)

// askPINs checks the PINs that drafts ask for, before any of them is written.
// Nobody is asked while a station has no members yet.
func (s *Station) askPINs(tx *journal.Tx, f *folded, drafts []Draft) error {
	if s.ask == nil || len(f.state.Members) == 0 {
		return nil
	}
	right := map[string]PIN{} // those taken already
	for i := range drafts {
		d := &drafts[i]
		if _, written, err := tx.Find(d.ID); err != nil {
			return err
		} else if written {
			continue
		}
		if err := s.askPIN(tx, f, d, right, len(drafts) == 1); err != nil {
			return err
		}
	}
	return nil
}

// askPIN asks nobody who has no PIN. It holds d to the one whose PIN it was: a
// line before it in the same record may make its By mean somebody else. Where
// d is alone, what the rules refuse anyway is refused before anybody is asked.
func (s *Station) askPIN(tx *journal.Tx, f *folded, d *Draft, right map[string]PIN, alone bool) error {
	e := bath.Entry{ID: d.ID, At: d.At, By: d.By, Bath: d.Bath, Body: d.Body}
	m, unknown := f.state.Member(d.By)
	if unknown == nil {
		e.By = m.Name
	}
	ask := s.ask(f.state, e)
	switch {
	case ask == AskNever:
		return nil
	case unknown != nil:
		return unknown
	}
	if has, err := hasPIN(tx, m); err != nil || !has {
		return err
	}
	if alone {
		if err := s.foresee(f.state, *d); err != nil {
			return err
		}
	}
	d.By = m.Name
	if taken, ok := right[m.Name]; ok && taken == d.PIN {
		return nil
	}
	if d.PIN == "" {
		return s.askSession(tx, f, ask, m, *d)
	}
	right[m.Name] = d.PIN
	return s.try(tx, f, m, d.PIN)
}

// askSession lets a wash session stand for the PIN that began it, while the
// member still has that one.
func (s *Station) askSession(tx *journal.Tx, f *folded, ask Ask, m bath.Member, d Draft) error {
	if ask == AskOnce && d.Session.Covers(m.Name, s.now()) {
		if r, err := readPIN(tx, m.Name); err == nil && r != nil && !r.Set.After(d.Session.begun) {
			return nil
		}
	}
	return pinSayer{m, f.state.Zone(), f.state.Times()}.missing(actOf(d.Body))
}

// foresee says what the rules will say of d, but for what a line that is
// crossed out says to it.
func (s *Station) foresee(st *bath.State, d Draft) error {
	if err := bath.ByItself(d.Body); err != nil {
		return err
	}
	e, err := s.prepare(st, d)
	if err != nil {
		return err
	}
	return bath.Check(st, e, s.now())
}

func actOf(b bath.Body) string {
	if spec, ok := bath.SpecOf(bath.Entry{Body: b}.Kind()); ok {
		return fmt.Sprintf("%q", spec.Title)
	}
	return "this"
}
