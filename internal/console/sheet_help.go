package console

import (
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// helpSheet lists what can be done here, then everywhere; enter does it. What
// cannot be done now stays in the list and says why.
type helpSheet struct{ menu }

// press asks for a key to be treated as if it had been typed.
type press struct{ key string }

// newHelp makes the list from the bindings of the screen and those of every
// screen; why says of each what stands in its way.
func newHelp(t *theme, here, anywhere []key.Binding, why func(key.Binding) string) *helpSheet {
	s := &helpSheet{menu{t: t}}
	for i, b := range here {
		s.all = append(s.all, offerOf(b, why))
		if i == 0 {
			s.all[0].right = "on this screen"
		}
	}
	for _, b := range anywhere {
		if !slices.ContainsFunc(here, func(h key.Binding) bool { return h.Keys()[0] == b.Keys()[0] }) {
			s.all = append(s.all, offerOf(b, why))
		}
	}
	if len(s.all) > len(here) {
		s.all[len(here)].right = "anywhere"
	}
	return s
}

func offerOf(b key.Binding, why func(key.Binding) string) offer {
	h := b.Help()
	return offer{key: h.Key, say: h.Desc, why: why(b), do: press{b.Keys()[0]}}
}

func (s *helpSheet) title() string { return "What can be done here" }

func (s *helpSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "do it", "enter"), keys.find, keys.up, keys.down, keys.esc}
}

func (s *helpSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok:
		return nil
	case key.Matches(k, keys.esc, keys.help):
		return closeSheet{}
	}
	return s.key(k)
}
