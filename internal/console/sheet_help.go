package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// helpSheet lists what can be done here, then everywhere; enter does it.
type helpSheet struct {
	t    *theme
	list []key.Binding
	here int // how many of them belong to the screen
	at   int
}

func newHelp(t *theme, here, anywhere []key.Binding) *helpSheet {
	return &helpSheet{t: t, list: append(append([]key.Binding{}, here...), anywhere...), here: len(here)}
}

func (s *helpSheet) title() string { return "What can be done here" }

func (s *helpSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "do it", "enter"), keys.up, keys.down, keys.esc}
}

// press asks for a key to be treated as if it had been typed.
type press struct{ key string }

func (s *helpSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	if !ok {
		return nil
	}
	switch {
	case key.Matches(k, keys.esc, keys.help):
		return closeSheet{}
	case key.Matches(k, keys.up):
		s.at = max(0, s.at-1)
	case key.Matches(k, keys.down):
		s.at = min(len(s.list)-1, s.at+1)
	case key.Matches(k, keys.enter):
		return press{s.list[s.at].Keys()[0]}
	}
	return nil
}

func (s *helpSheet) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	first := firstShown(s.at, len(s.list), h)
	for i := first; i < len(s.list) && len(lines) < h; i++ {
		b := s.list[i].Help()
		mark, where := "  ", ""
		if i == s.at {
			mark = s.t.mark("▸ ", "> ")
		}
		if i == 0 && s.here > 0 {
			where = s.t.muted.Render("on this screen ")
		}
		if i == s.here {
			where = s.t.muted.Render("anywhere ")
		}
		text := s.t.key.Render(pad(b.Key, 10)) + " " + b.Desc
		if i == s.at {
			text = s.t.key.Render(pad(b.Key, 10)) + " " + s.t.accent.Render(b.Desc)
		}
		lines = append(lines, spread(" "+mark+text, where, w))
	}
	return lines, tea.NewCursor(1, s.at-first)
}
