package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
)

// explainSheet says whole why something is to be done, and where the figures in
// it come from.
type explainSheet struct {
	t *theme
	a advise.Action
}

// explain asks for it.
type explain struct{ a advise.Action }

func (s *explainSheet) title() string { return "Why: " + s.a.Say }

func (s *explainSheet) bindings() []key.Binding { return []key.Binding{keys.esc} }

func (s *explainSheet) update(msg tea.Msg) action {
	if _, ok := msg.(tea.KeyPressMsg); ok {
		return closeSheet{}
	}
	return nil
}

func (s *explainSheet) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	for _, l := range wrap(capital(s.a.Why)+".", w-3) {
		lines = append(lines, " "+l)
	}
	for _, from := range s.a.From {
		for i, l := range wrap(capital(from)+".", w-5) {
			lead := "   "
			if i == 0 {
				lead = " · "
			}
			lines = append(lines, lead+s.t.muted.Render(l))
		}
	}
	return lines[:min(len(lines), h)], tea.NewCursor(1, 0)
}
