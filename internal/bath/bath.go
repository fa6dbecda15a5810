// Package bath is the heart of Bathside: the entries that make up a station's
// log book, the rules an entry must keep, and the fold of entries into State.
//
// It does no I/O, reads no clock and knows no catalog: now is an argument, and
// an entry carries whatever the fold needs, so that editing a catalog never
// rewrites history.
//
// Each kind of entry lives in one file, kind_*.go: its body, the fields a form
// or a command line asks for, its rules, and how its line reads. To add a kind,
// write such a file and name it in kinds.go.
package bath

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"bathside/internal/units"
)

// Entry is one line of the log book.
type Entry struct {
	Seq    uint64    // place in the journal, from 1; 0 before it is written
	ID     string    // ULID, minted by whoever makes the entry
	At     time.Time // when it happened
	Logged time.Time // when it was written
	By     string    // name of the member
	Bath   string    // id of the bath; "" for entries of the station
	Body   Body
}

// Kind names what the entry is.
func (e Entry) Kind() Kind { return e.Body.spec().Kind }

// Say is the entry as a line of the log book, in the station's units.
func (e Entry) Say(sys units.System) string { return e.Body.say(sys) }

// Body is what an entry of one kind carries. Bodies are pointers to the
// structs of the kind_*.go files and are never changed once recorded.
type Body interface {
	spec() *Spec
	// check refuses a body that breaks a rule of its kind. What holds for
	// every kind (time, role, an open fill) is Check's.
	check(v view, e Entry) error
	say(sys units.System) string
}

// wire is an Entry as JSON, the form that exports and --json show.
type wire[B any] struct {
	Seq    uint64    `json:"seq"`
	ID     string    `json:"id"`
	At     time.Time `json:"at"`
	Logged time.Time `json:"logged"`
	By     string    `json:"by"`
	Bath   string    `json:"bath,omitzero"`
	Kind   Kind      `json:"kind"`
	Body   B         `json:"body"`
}

// MarshalJSON writes the entry with its kind beside its body.
func (e Entry) MarshalJSON() ([]byte, error) {
	body, err := json.Marshal(e.Body)
	if err != nil {
		return nil, err
	}
	return json.Marshal(wire[json.RawMessage]{e.Seq, e.ID, e.At, e.Logged, e.By, e.Bath, e.Kind(), body})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *Entry) UnmarshalJSON(b []byte) error {
	if e.readTyped(b) {
		return nil
	}
	var w wire[json.RawMessage]
	if err := json.Unmarshal(b, &w); err != nil {
		return err
	}
	body, err := Decode(w.Kind, w.Body)
	if err != nil {
		return fmt.Errorf("entry %d: %w", w.Seq, err)
	}
	*e = Entry{w.Seq, w.ID, w.At, w.Logged, w.By, w.Bath, body}
	return nil
}

// readTyped reads b in one pass where its kind stands before its body, as
// MarshalJSON writes it: a checkpoint holds a thousand entries, and every start
// of the program reads it.
func (e *Entry) readTyped(b []byte) bool {
	_, b2, _ := bytes.Cut(b, []byte(`"kind":"`))
	kind, _, _ := bytes.Cut(b2, []byte(`"`))
	s, ok := SpecOf(Kind(kind))
	if !ok {
		return false
	}
	w := wire[Body]{Body: s.New()}
	if json.Unmarshal(b, &w) != nil || w.Kind != s.Kind || w.Body == nil {
		return false
	}
	*e = Entry{w.Seq, w.ID, w.At, w.Logged, w.By, w.Bath, w.Body}
	return true
}

// Decode reads a body of the given kind. A kind that this program does not
// know comes back as *Unknown, so that an older console still shows the line.
func Decode(k Kind, b []byte) (Body, error) {
	s, ok := SpecOf(k)
	if !ok {
		return &Unknown{KindName: k, Raw: b}, nil
	}
	body := s.New()
	if err := json.Unmarshal(b, body); err != nil {
		return nil, fmt.Errorf("read a %s: %w", k, err)
	}
	return body, nil
}

// Unknown is the body of a kind that a newer Bathside wrote. It is kept and
// shown, and changes nothing.
type Unknown struct {
	KindName Kind
	Raw      json.RawMessage
}

// MarshalJSON gives back the bytes that were read.
func (u *Unknown) MarshalJSON() ([]byte, error) { return u.Raw, nil }

func (u *Unknown) spec() *Spec             { return &Spec{Kind: u.KindName} }
func (u *Unknown) say(units.System) string { return "written by a newer Bathside" }
func (u *Unknown) check(v view, e Entry) error {
	return refuse("unknown-kind", "%q is not a kind of entry here: use one of %s", u.KindName, kindNames())
}
