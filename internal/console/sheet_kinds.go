package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
)

// kindsSheet lists every kind of entry, and after them setting a PIN; enter
// opens the form.
type kindsSheet struct {
	t     *theme
	specs []*bath.Spec
	at    int
}

func newKinds(t *theme) *kindsSheet {
	s := &kindsSheet{t: t}
	for _, spec := range bath.Specs() {
		if spec.Kind != "strike" { // it needs a line: the log book has it
			s.specs = append(s.specs, spec)
		}
	}
	return s
}

func (s *kindsSheet) title() string { return "Log anything" }

func (s *kindsSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "open its form", "enter"), keys.up, keys.down, keys.esc}
}

func (s *kindsSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	if !ok {
		return nil
	}
	switch {
	case key.Matches(k, keys.esc):
		return closeSheet{}
	case key.Matches(k, keys.up):
		s.at = max(0, s.at-1)
	case key.Matches(k, keys.down):
		s.at = min(len(s.specs), s.at+1)
	case key.Matches(k, keys.enter) && s.at == len(s.specs):
		return openSetPIN{}
	case key.Matches(k, keys.enter):
		return openForm{kind: s.specs[s.at].Kind}
	}
	return nil
}

func (s *kindsSheet) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	first := firstShown(s.at, len(s.specs)+1, h)
	for i := first; i <= len(s.specs) && len(lines) < h; i++ {
		shortcut, text, who := s.item(i)
		mark := "  "
		if i == s.at {
			mark, text = s.t.mark("▸ ", "> "), s.t.accent.Render(text)
		}
		lines = append(lines, spread(" "+mark+s.t.key.Render(pad(shortcut, 3))+text, who, w))
	}
	return lines, tea.NewCursor(1, s.at-first)
}

// item is what one row of the list says.
func (s *kindsSheet) item(i int) (shortcut, text, who string) {
	if i == len(s.specs) {
		return "", "Set a PIN", ""
	}
	spec := s.specs[i]
	if spec.Role != bath.Crew {
		who = s.t.muted.Render(spec.Role.Say() + " ")
	}
	return keyFor(spec.Kind), spec.Title, who
}

// keyFor is the key that opens the form of a kind from anywhere, or the screen
// with it; else "".
func keyFor(k bath.Kind) string {
	for _, kk := range kindKeys {
		if kk.kind == k {
			return kk.key.Help().Key
		}
	}
	if k == "decision" {
		return keys.decide.Help().Key
	}
	return ""
}
