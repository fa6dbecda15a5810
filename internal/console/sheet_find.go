package console

import (
	"fmt"
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// findSheet marks what is typed in the list below it, while it is typed. A
// scanner types a tag and presses enter.
type findSheet struct {
	t      *theme
	in     any // what has the list
	was    int // the row that was marked before
	fields fields
}

// openFind asks for it.
type openFind struct{}

func newFind(t *theme, in any) *findSheet {
	s := &findSheet{t: t, in: in, fields: fields{t: t, rows: []*row{newRow("find", "find", "typed, or scanned")}}}
	l, _ := listOf(in)
	s.was = l.at
	s.fields.focus(0)
	return s
}

func (s *findSheet) title() string { return "Find" }

func (s *findSheet) bindings() []key.Binding {
	return []key.Binding{
		bind("enter", "stay there", "enter"), bind("down", "the next that fits", "down"), bind("up", "the one before", "up"),
		bind("esc", "back to where it was", "esc"),
	}
}

func (s *findSheet) typed() string { return s.fields.rows[0].value() }

func (s *findSheet) update(msg tea.Msg) action {
	l, _ := listOf(s.in)
	found := l.matches(s.typed())
	k, isKey := msg.(tea.KeyPressMsg)
	switch {
	case isKey && key.Matches(k, keys.esc):
		s.mark(l, s.was)
		return closeSheet{}
	case isKey && key.Matches(k, keys.enter):
		return s.enter(found)
	case isKey && key.Matches(k, fieldNext):
		s.step(l, found, 1)
		return nil
	case isKey && key.Matches(k, fieldPrev):
		s.step(l, found, -1)
		return nil
	}
	s.fields.update(msg)
	switch found = l.matches(s.typed()); {
	case len(found) == 0:
		s.mark(l, s.was)
	case !slices.Contains(found, l.at):
		s.mark(l, found[0])
	}
	return nil
}

// enter stays at what was found, or has more looked for.
func (s *findSheet) enter(found []int) action {
	if more, ok := s.in.(seeker); ok && len(found) == 0 && s.typed() != "" {
		return seek{more, s.typed()}
	}
	return closeSheet{}
}

// seek closes the sheet and has in look further.
type seek struct {
	in    seeker
	words string
}

// step goes to the next row that fits, or to the one before.
func (s *findSheet) step(l list, found []int, by int) {
	if n := len(found); n > 0 {
		i := slices.Index(found, l.at)
		if i < 0 && by < 0 {
			i = 0
		}
		s.mark(l, found[(i+by+n)%n])
	}
}

func (s *findSheet) mark(l list, i int) {
	if l.mark != nil && i >= 0 && i < len(l.rows) {
		l.mark(i)
	}
}

func (s *findSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines, cursor := s.fields.view(w, 1)
	return append(lines, " "+s.t.muted.Render(fit(w-2, s.say())))[:min(2, h)], cursor
}

func (s *findSheet) say() string {
	l, _ := listOf(s.in)
	found := l.matches(s.typed())
	_, further := s.in.(seeker)
	switch {
	case s.typed() == "":
		return fmt.Sprintf("%d lines in the list.", len(l.rows))
	case len(found) == 0 && further:
		return "Nothing in the list fits; enter looks further."
	case len(found) == 0:
		return "Nothing in the list fits."
	}
	return fmt.Sprintf("%d of %d: %s", slices.Index(found, l.at)+1, len(found), l.marked())
}

// openFind looks for something in the list that has the keys.
func (m *Model) openFind() {
	var in any = m.screens[m.shown]
	if s := m.top(); s != nil {
		in = s
	}
	_, has := listOf(in)
	if _, further := in.(seeker); !has && !further {
		m.toast.stay("Not now: no list is marked here")
		return
	}
	m.push(newFind(m.t, in))
}
