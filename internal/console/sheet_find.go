package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// findSheet asks for a tag. A scanner types it and presses enter.
type findSheet struct{ fields fields }

func newFind(t *theme) *findSheet {
	s := &findSheet{fields{t: t, rows: []*row{newRow("tag", "tag", "typed, or scanned; a new one is registered")}}}
	s.fields.focus(0)
	return s
}

func (s *findSheet) title() string { return "Find a tag" }

func (s *findSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "go to it", "enter"), keys.esc}
}

func (s *findSheet) update(msg tea.Msg) action {
	if k, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(k, keys.esc):
			return closeSheet{}
		case key.Matches(k, keys.enter):
			return findTag{s.fields.row("tag").value()}
		}
	}
	s.fields.update(msg)
	return nil
}

func (s *findSheet) view(w, h int) ([]string, *tea.Cursor) { return s.fields.view(w, min(h, 1)) }
