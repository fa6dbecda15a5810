package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// messagesSheet lists what the console said since it was opened, the newest
// first: good news goes by itself, and is found again here.
type messagesSheet struct {
	t    *theme
	x    *advise.Snapshot
	said []message // the newest first
	at   int
}

func newMessages(t *theme, x *advise.Snapshot, said []message) *messagesSheet {
	s := &messagesSheet{t: t, x: x}
	for i := len(said) - 1; i >= 0; i-- {
		s.said = append(s.said, said[i])
	}
	return s
}

func (s *messagesSheet) title() string { return "Messages, the newest first" }

func (s *messagesSheet) bindings() []key.Binding {
	return []key.Binding{keys.esc, keys.up, keys.down, keys.find, keys.copy}
}

func (s *messagesSheet) list() list {
	rows := make([]string, len(s.said))
	for i, m := range s.said {
		rows[i] = s.x.Clock(m.at) + "  " + m.text
	}
	return list{rows: rows, at: s.at, mark: func(i int) { s.at = i }}
}

func (s *messagesSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok:
	case key.Matches(k, keys.esc, keys.enter, keys.messages):
		return closeSheet{}
	default:
		if at, ok := moved(k, s.at, len(s.said), 10); ok {
			s.at = max(0, at)
		}
	}
	return nil
}

// view gives every message a row, and the marked one as many as it takes.
func (s *messagesSheet) view(w, h int) ([]string, *tea.Cursor) {
	if len(s.said) == 0 {
		return []string{pad(" Nothing was said yet.", w)}, tea.NewCursor(1, 0)
	}
	all := s.list().rows
	whole := wrap(plain.Line(all[s.at]), w-6)
	whole = whole[:min(len(whole), max(1, h-2))]
	room := max(1, h-len(whole)+1)
	first := firstShown(s.at, len(all), room)
	var lines []string
	cursor := 0
	for i := first; i < len(all) && len(lines) < h; i++ {
		sign, style := s.t.mark("✓ ", "+ "), s.t.text
		if s.said[i].bad {
			sign, style = s.t.mark("✗ ", "X "), s.t.bad.Bold(false)
		}
		if i != s.at {
			lines = append(lines, "   "+style.Render(sign+fit(w-6, plain.Line(all[i]))))
			continue
		}
		cursor = len(lines)
		for j, l := range whole {
			lead := "     "
			if j == 0 {
				lead = " " + s.t.mark("▸ ", "> ") + sign
			}
			lines = append(lines, lead+s.t.accent.Render(l))
		}
	}
	return lines[:min(len(lines), h)], tea.NewCursor(1, min(cursor, h-1))
}
