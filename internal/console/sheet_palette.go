package console

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/plain"
)

// palette takes what somebody types for what they want, and lists what fits:
// what can be done, what can be logged, guides, cards, and how things stand.
type palette struct {
	menu
	whole  []offer
	fields fields
}

func newPalette(t *theme, whole []offer) *palette {
	s := &palette{menu: menu{t: t, all: whole}, whole: whole}
	s.fields = fields{t: t, rows: []*row{newRow("want", "you want", "reading, drain, who is on, mask")}}
	s.fields.focus(0)
	return s
}

func (s *palette) title() string { return "Type what you want" }

func (s *palette) bindings() []key.Binding {
	return []key.Binding{bind("enter", "do it: what is marked", "enter"), bind("down", "the next", "down"), bind("up", "the one before", "up"), keys.esc}
}

func (s *palette) update(msg tea.Msg) action {
	k, isKey := msg.(tea.KeyPressMsg)
	switch {
	case isKey && key.Matches(k, keys.esc, paletteKey):
		return closeSheet{}
	case isKey && key.Matches(k, paletteMoves):
		return s.menu.key(k)
	}
	was := s.fields.rows[0].value()
	s.fields.update(msg)
	if typed := s.fields.rows[0].value(); typed != was {
		s.all, s.at = fitting(s.whole, typed), 0
	}
	return nil
}

var (
	paletteKey   = bind("ctrl+p", "close it", "ctrl+p")
	paletteMoves = bind("down", "move", "up", "down", "pgup", "pgdown", "enter")
)

// list is none: what is typed goes into the row, and that finds.
func (s *palette) list() list { return list{} }

func (s *palette) view(w, h int) ([]string, *tea.Cursor) {
	lines, cursor := s.fields.view(w, 1)
	if len(s.all) == 0 {
		say := fmt.Sprintf("Nothing is called %q here. esc, then ? lists what can be done.", plain.Line(s.fields.rows[0].value()))
		return append(lines, " "+s.t.muted.Render(fit(w-2, say)))[:min(2, h)], cursor
	}
	found, _ := s.menu.view(w, max(1, min(h-1, 14)))
	return append(lines, found...)[:min(h, len(found)+1)], cursor
}
