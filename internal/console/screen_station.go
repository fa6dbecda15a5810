package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
)

// stationScreen is screen 8: the whole set-up, a list of its parts and the
// values of the marked one, each with whose word it is. Enter changes the
// marked value by the form of its kind.
type stationScreen struct {
	t    *theme
	x    *advise.Snapshot
	l    layout
	pins map[string]bool // who has one; nil: not known

	parts  []advise.Part
	part   int
	value  int  // of the marked part
	values bool // the values have the keys, not the parts
}

func newStationScreen() *stationScreen { return new(stationScreen) }

func (s *stationScreen) setTheme(t *theme) { s.t = t }
func (s *stationScreen) setSize(l layout)  { s.l = l }

func (s *stationScreen) setSnapshot(x *advise.Snapshot) {
	s.x = x
	s.parts = x.StationParts(s.pins)
	s.part = min(s.part, len(s.parts)-1)
	s.value = max(0, min(s.value, len(s.marked().Values)-1))
}

// marked is the part whose values are shown.
func (s *stationScreen) marked() advise.Part { return s.parts[s.part] }

var (
	stationOpen   = bind("enter", "its values: go to them", "enter", "right", "l")
	stationChange = bind("enter", "change: the marked value", "enter")
	stationParts  = bind("esc", "parts: back to the list", "esc", "left", "h")
	stationAdd    = bind("a", "add: a member, a basket, a paper, what was counted", "a")
)

func (s *stationScreen) bindings() []key.Binding {
	b := []key.Binding{stationOpen, keys.up, keys.down}
	if s.values {
		b = []key.Binding{stationChange, stationParts, keys.up, keys.down}
	}
	if s.x != nil && s.marked().Add != nil {
		b = append(b, stationAdd)
	}
	return append(b, keys.next)
}

func (s *stationScreen) key(msg tea.KeyPressMsg) action {
	if s.x == nil {
		return nil
	}
	switch {
	case key.Matches(msg, keys.next), key.Matches(msg, keys.prev):
		s.values = !s.values
	case key.Matches(msg, stationAdd):
		return s.add()
	case s.values:
		return s.keyValues(msg)
	default:
		s.keyParts(msg)
	}
	return nil
}

func (s *stationScreen) keyParts(msg tea.KeyPressMsg) {
	if at, ok := moved(msg, s.part, len(s.parts), s.l.body.Dy()/2); ok {
		if at != s.part {
			s.part, s.value = at, 0
		}
		return
	}
	s.values = key.Matches(msg, stationOpen)
}

func (s *stationScreen) keyValues(msg tea.KeyPressMsg) action {
	n := len(s.marked().Values)
	if at, ok := moved(msg, s.value, n, s.l.body.Dy()/2); ok {
		s.value = max(0, at)
		return nil
	}
	switch {
	case key.Matches(msg, stationParts):
		s.values = false
	case key.Matches(msg, stationChange) && n > 0:
		return changeValue(s.marked().Values[s.value])
	}
	return nil
}

// changeValue asks for the form that changes a value, filled in with it.
func changeValue(v advise.Value) action {
	if v.Kind == advise.KindPIN {
		return openSetPIN{member: v.Field}
	}
	return openForm{kind: v.Kind, preset: v.Preset, begin: v.Field}
}

func (s *stationScreen) add() action {
	if a := s.marked().Add; a != nil {
		return openForm{kind: a.Kind, preset: a.Preset, begin: a.Field}
	}
	return nil
}

// list is the values of the marked part, or the parts.
func (s *stationScreen) list() list {
	switch {
	case s.x == nil:
		return list{}
	case s.values:
		l := list{at: s.value, mark: func(i int) { s.value = i }}
		for _, v := range s.marked().Values {
			l.rows = append(l.rows, v.Label+": "+v.Is)
		}
		return l
	}
	l := list{at: s.part, mark: func(i int) { s.part, s.value = i, 0 }}
	for _, p := range s.parts {
		l.rows = append(l.rows, p.Name)
	}
	return l
}
