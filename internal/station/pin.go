package station

import (
	"fmt"
	"io"
	"time"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/pin"
)

// PIN is a PIN as somebody typed it. Printed or marshalled it does not say what
// it is, so that it reaches no log, no message and no file.
type PIN string

// Format writes "(PIN)" for every verb.
func (PIN) Format(f fmt.State, _ rune) { _, _ = io.WriteString(f, "(PIN)") }

// MarshalText gives "(PIN)".
func (PIN) MarshalText() ([]byte, error) { return []byte("(PIN)"), nil }

// Good says what is wrong with a PIN that somebody chooses: 4 to 12 digits,
// and none of the first that anyone would try. The error is a *bath.Refusal.
func (p PIN) Good() error {
	if err := pin.Good(string(p)); err != nil {
		return &bath.Refusal{ID: "pin-weak", Say: err.Error()}
	}
	return nil
}

// pinCost is what a new PIN is hashed at; the tests lower it.
var pinCost = pin.Standard

// Signature is who says so, with their PIN for proof.
type Signature struct {
	By  string
	PIN PIN
}

// PINEvent is what happened to a member's PIN, for the log book. It never
// holds the PIN.
type PINEvent struct {
	Kind   string // "set", "reset", "wrong" or "locked"
	Member string
	By     string    // who set it; the member, where nobody signed
	Wrong  int       // "wrong" and "locked": wrong tries since the last right one or lock
	Locks  int       // "locked": locks since the last right try, this one too
	Until  time.Time // "locked"
}

// Authorize checks somebody's PIN and gives who they are. The error is a
// *PINError where it does not fit, and a *bath.Refusal where nobody is meant.
// Each try is on disk, wrong or right, before the answer is known: a disk that
// cannot be written to answers nothing.
func (s *Station) Authorize(who string, given PIN) (bath.Member, error) {
	var m bath.Member
	err := s.update(func(tx *journal.Tx, f *folded) (err error) {
		if m, err = f.state.Member(who); err != nil {
			return err
		}
		return s.try(tx, f, m, given)
	})
	if err != nil {
		return bath.Member{}, err
	}
	return m, nil
}

// HasPIN reports whether a member of the roster has a PIN.
func (s *Station) HasPIN(who string) (has bool, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	err = s.j.View(func(tx *journal.Tx) error {
		if err := s.refresh(tx); err != nil {
			return err
		}
		m, err := s.known.state.Member(who)
		if err == nil {
			has, err = hasPIN(tx, m)
		}
		return err
	})
	return has, err
}

// SetPIN gives a member a PIN. It is signed by the member with the PIN they
// have, or by a gear officer. While no gear officer here has a PIN, one sets
// the own unsigned: so a station begins.
func (s *Station) SetPIN(member string, fresh PIN, by Signature) error {
	if err := fresh.Good(); err != nil {
		return err
	}
	hash := pinCost.Hash(string(fresh))
	return s.update(func(tx *journal.Tx, f *folded) error {
		m, err := f.state.Member(member)
		if err != nil {
			return err
		}
		signer, err := f.state.Member(by.By)
		if err != nil {
			return err
		}
		if err := s.sign(tx, f, m, signer, by.PIN); err != nil {
			return err
		}
		return s.keepPIN(tx, f, hash, PINEvent{Kind: "set", Member: m.Name, By: signer.Name})
	})
}

// ResetPIN gives a member a PIN that nobody signs, for those who lost theirs.
// It is for whoever may write the file and starts setup there, and the log
// book says so.
func (s *Station) ResetPIN(member string, fresh PIN) error {
	if err := fresh.Good(); err != nil {
		return err
	}
	hash := pinCost.Hash(string(fresh))
	return s.update(func(tx *journal.Tx, f *folded) error {
		m, err := f.state.Member(member)
		if err != nil {
			return err
		}
		return s.keepPIN(tx, f, hash, PINEvent{Kind: "reset", Member: m.Name, By: m.Name})
	})
}

// sign checks that signer may give m a PIN, and is who they say.
func (s *Station) sign(tx *journal.Tx, f *folded, m, signer bath.Member, proof PIN) error {
	own := signer.Name == m.Name
	if !own && signer.Role != bath.Officer {
		return &bath.Refusal{ID: "role", Say: fmt.Sprintf("%s is %s and may set no PIN but the own: "+
			"%s sets it with the old one, or a gear officer does", signer.Name, signer.Role.Say(), m.Name)}
	}
	if own && signer.Role == bath.Officer {
		begun, err := officersHavePINs(tx, f.state)
		if err != nil || !begun {
			return err
		}
	}
	return s.try(tx, f, signer, proof)
}

func officersHavePINs(tx *journal.Tx, st *bath.State) (bool, error) {
	for _, m := range st.Members {
		if m.Role != bath.Officer || m.Left {
			continue
		}
		if has, err := hasPIN(tx, m); has || err != nil {
			return has, err
		}
	}
	return false, nil
}

// keepPIN stores a new PIN, which ends locks, and its line.
func (s *Station) keepPIN(tx *journal.Tx, f *folded, hash string, ev PINEvent) error {
	if err := writePIN(tx, ev.Member, pinRecord{Hash: hash, Set: s.now().UTC()}); err != nil {
		return err
	}
	return s.notePIN(tx, f, ev)
}

// notePIN writes the line of an event where the station has one for it.
func (s *Station) notePIN(tx *journal.Tx, f *folded, ev PINEvent) error {
	if s.pinLine == nil {
		return nil
	}
	body := s.pinLine(ev)
	if body == nil {
		return nil
	}
	_, err := s.append(tx, f, s.stamp([]Draft{{By: ev.By, Body: body}})[0])
	return err
}
