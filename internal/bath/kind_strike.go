package bath

import (
	"encoding/json"
	"fmt"
	"time"

	"bathside/internal/units"
)

// Strike crosses out an earlier entry. Both stay in the log book. Instead,
// where it is given, is the corrected body: the entry counts as if it had
// carried that from the start.
type Strike struct {
	Target  uint64          `json:"target"`
	Why     string          `json:"why"`
	Instead json.RawMessage `json:"instead,omitzero"`
	At      time.Time       `json:"at,omitzero"` // the corrected time, with Instead
}

var strikeSpec = &Spec{
	Kind: "strike", Title: "Cross out a line", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Strike) },
	Fields: []Field{
		field("target", "line", "41", func(s *Strike) *uint64 { return &s.Target }).help("its number in the log book"),
		field("why", "why", "typed 10.9 for 10.09", func(s *Strike) *string { return &s.Why }).help("both lines stay visible"),
	},
}

func (s *Strike) spec() *Spec { return strikeSpec }

func (s *Strike) check(view, Entry) error {
	if s.Why == "" {
		return refuse("missing", "why is line %d crossed out? Give a reason; both lines stay visible", s.Target)
	}
	return nil
}

func (s *Strike) say(units.System) string {
	if s.Instead != nil {
		return fmt.Sprintf("line %d corrected: %s", s.Target, s.Why)
	}
	return fmt.Sprintf("line %d crossed out: %s", s.Target, s.Why)
}

// Corrected is target as the strike rewrites it; false where it is crossed
// out with nothing in its place.
func (s *Strike) Corrected(target Entry) (Entry, bool, error) {
	if s.Instead == nil {
		return Entry{}, false, nil
	}
	body, err := Decode(target.Kind(), s.Instead)
	if err != nil {
		return Entry{}, false, err
	}
	target.Body = body
	if !s.At.IsZero() {
		target.At = s.At
	}
	return target, true, nil
}

// CheckStrike says whether e may cross out target; later holds the entries
// after it. The author may until their shift ends, a gear officer always. An
// entry that later ones rest on stays, unless a corrected one takes its place;
// a correction may be corrected again, or crossed out.
func CheckStrike(s *State, e Entry, target Entry, later []Entry) error {
	done := strikesIn(later)
	stands, counts, err := done.effective(target)
	if err != nil {
		return err
	}
	if !counts {
		return refuse("struck", "line %d is crossed out already, by line %d", target.Seq, s.Struck[target.Seq])
	}
	if err := checkStrikeWho(s, e, target); err != nil {
		return err
	}
	if strike := e.Body.(*Strike); strike.Instead != nil {
		return checkInstead(s, strike, stands, e)
	}
	if rest, ok := restsOn(stands, later, done); ok {
		return refuse("rests", "line %d (%s) rests on line %d: cross that one out first", rest.Seq, rest.Body.spec().Title, target.Seq)
	}
	return nil
}

func checkStrikeWho(s *State, e Entry, target Entry) error {
	switch target.Body.(type) {
	case *Strike:
		return refuse("input", "line %d crosses out another line, and stays: record again what that one said", target.Seq)
	case *PIN:
		return refuse("input", "line %d was written by the station itself, and stays: a new PIN settles it", target.Seq)
	case *Member, *Tank, *Setting, *Gear:
		return refuse("input", "line %d cannot be crossed out: record it again with the right values", target.Seq)
	}
	m, err := s.Member(e.By)
	if err != nil {
		return err
	}
	if m.Role != Officer && !sameShift(s, m, target, e) {
		return refuse("role", "line %d was written by %s: only they, before their shift ends, or a gear officer may cross it out", target.Seq, target.By)
	}
	return nil
}

// sameShift reports whether m wrote target in the shift that e is made in.
func sameShift(s *State, m Member, target, e Entry) bool {
	if m.Name != target.By {
		return false
	}
	return !target.Logged.Before(s.Shifts().At(e.Logged.In(s.Zone())).Start)
}

// restsOn finds a later entry that counts and makes no sense without target.
func restsOn(target Entry, later []Entry, done strikes) (Entry, bool) {
	for _, l := range later {
		l, counts, err := done.effective(l)
		if err != nil || !counts || l.Bath != target.Bath {
			continue
		}
		if d, ok := l.Body.(*Disposal); ok && d.Line == target.Seq {
			return l, true
		}
		switch target.Body.(type) {
		case *Fill:
			if l.Body.spec().Scope == OfFill || l.Kind() == "drain" || l.Kind() == "fill" || l.Kind() == "wash" {
				return l, true
			}
		case *Drain:
			if l.Kind() == "fill" {
				return l, true
			}
		case *Wash, *Care:
			if caredFor(target, l) {
				return l, true
			}
		case *Dose:
			if r, ok := l.Body.(*Reading); ok && r.Baseline {
				return l, true
			}
			if l.Kind() == "fill" {
				return Entry{}, false // another life
			}
		}
	}
	return Entry{}, false
}
