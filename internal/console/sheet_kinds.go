package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
)

// kindsSheet lists every kind of entry; enter opens its form.
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
		s.at = min(len(s.specs)-1, s.at+1)
	case key.Matches(k, keys.enter):
		return openForm{kind: s.specs[s.at].Kind}
	}
	return nil
}

func (s *kindsSheet) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	first := firstShown(s.at, len(s.specs), h)
	for i := first; i < len(s.specs) && len(lines) < h; i++ {
		spec := s.specs[i]
		mark, text := "  ", spec.Title
		if i == s.at {
			mark, text = s.t.mark("▸ ", "> "), s.t.accent.Render(text)
		}
		who := ""
		if spec.Role != bath.Crew {
			who = s.t.muted.Render(spec.Role.Say() + " ")
		}
		lines = append(lines, spread(" "+mark+s.t.key.Render(pad(keyFor(spec.Kind), 3))+text, who, w))
	}
	return lines, tea.NewCursor(1, s.at-first)
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
