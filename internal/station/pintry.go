package station

import (
	"errors"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/pin"
)

// update runs fn in a write transaction on top of the state of the moment, and
// takes over the state it leaves. Where fn returns a *PINError what it stored
// is kept all the same: that is how a wrong try is counted, and fn must have
// stored nothing else.
func (s *Station) update(fn func(tx *journal.Tx, f *folded) error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	var after folded
	var denied error
	err := s.j.Update(func(tx *journal.Tx) error {
		replaced := s.known.state != nil && !extends(tx, s.known)
		if err := s.refresh(tx); err != nil {
			return err
		}
		if replaced {
			return ErrReplaced
		}
		after = s.known
		err := fn(tx, &after)
		if _, ok := errors.AsType[*PINError](err); ok {
			denied = err
			return nil
		}
		return err
	})
	if err != nil {
		return err
	}
	s.known = after // only what is on disk counts
	return denied
}

// try checks the PIN of m and stores the count. The error is a *PINError where
// it was not taken.
//
// While the PIN is locked nothing is checked and nothing counted. A lock that
// begins after now was made by a clock that ran ahead: it begins anew, so that
// none outlasts its time.
func (s *Station) try(tx *journal.Tx, f *folded, m bath.Member, given PIN) error {
	say := pinSayer{m, f.state.Zone(), f.state.Times()}
	r, err := readPIN(tx, m.Name)
	switch {
	case errors.Is(err, errPINRecord), errors.Is(err, ErrDamaged):
		return say.damaged()
	case err != nil:
		return err
	case r == nil:
		return say.none()
	case given == "":
		return say.missing("this")
	}
	now := s.now()
	if r.Locks > 0 && now.Before(r.Locked) {
		r.Locked = now.UTC()
		if err := writePIN(tx, m.Name, *r); err != nil {
			return err
		}
	}
	if now.Before(r.until()) {
		return say.locked(*r)
	}
	ok, err := pin.Check(r.Hash, string(given))
	switch {
	case err != nil:
		return say.damaged()
	case ok:
		return writePIN(tx, m.Name, pinRecord{Hash: r.Hash, Set: r.Set})
	}
	return s.deny(tx, f, say, *r)
}

// deny counts a wrong try, with its line. The count is kept even where a rule
// refuses the line.
func (s *Station) deny(tx *journal.Tx, f *folded, say pinSayer, r pinRecord) error {
	ev := PINEvent{Kind: "wrong", Member: say.Name, By: say.Name, Wrong: r.Wrong + 1}
	locks := r.Locks
	r.wrong(s.now())
	denial := say.wrong(r)
	if r.Locks > locks {
		ev.Kind, ev.Locks, ev.Until = "locked", r.Locks, r.until()
		denial = say.lockedNow(r)
	}
	if err := writePIN(tx, say.Name, r); err != nil {
		return err
	}
	before := tx.Head()
	err := s.notePIN(tx, f, ev)
	if _, refused := errors.AsType[*bath.Refusal](err); refused && tx.Head() == before {
		return errors.Join(denial, err)
	}
	if err != nil {
		return err
	}
	return denial
}
