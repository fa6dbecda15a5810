package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
)

// unlockSheet asks which gear officer it is, and for the PIN of one who has one.
type unlockSheet struct {
	t      *theme
	number string
	fields fields
	err    string
	saving bool
}

func newUnlock(t *theme, x *advise.Snapshot, number string) *unlockSheet {
	s := &unlockSheet{t: t, number: number, fields: fields{t: t}}
	who := newRow(rowWho, "gear officer", "left or right for another")
	who.keys, who.shown = map[string]string{}, map[string]string{}
	for _, m := range x.State.Members {
		if m.Role == bath.Officer && !m.Left {
			who.words = append(who.words, m.Name)
			if k := freeKey(m.Name, who.keys); k != "" {
				who.keys[k] = m.Name
			}
		}
	}
	if len(who.words) > 0 {
		who.set(who.words[0])
	}
	s.fields.rows = []*row{who}
	s.fields.focus(0)
	return s
}

func (s *unlockSheet) title() string { return "A gear officer's screen" }

func (s *unlockSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "open it", "enter"), bind("esc", "back", "esc")}
}

func (s *unlockSheet) askPIN() {
	s.saving = false
	if len(s.fields.rows) == 1 {
		s.fields.rows = append(s.fields.rows, secretRow(s.t, "pin", "PIN", "4 to 12 digits; they are not shown"))
	}
	s.fields.focus(1)
}

func (s *unlockSheet) refused(err error) {
	s.saving, s.err = false, sentence(err)
	if r := s.fields.row("pin"); r != nil {
		r.set("")
	}
}

func (s *unlockSheet) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	s.err = ""
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(k, keys.esc):
		return closeSheet{}
	case ok && key.Matches(k, keys.enter):
		s.saving = true
		a := unlock{who: s.fields.rows[0].value(), number: s.number}
		if r := s.fields.row("pin"); r != nil {
			a.pin = station.PIN(r.value())
		}
		return a
	}
	s.fields.update(msg)
	return nil
}

func (s *unlockSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines, cursor := s.fields.view(w, len(s.fields.rows))
	say, style := "The crew's screens are 1 Today and 4 Wash; all that happens can be logged from there.", s.t.muted
	switch {
	case s.saving:
		say = "Checking…"
	case s.err != "":
		say, style = s.t.mark("✗ ", "X ")+s.err, s.t.bad
	}
	lines = append(lines, "")
	for _, l := range wrap(say, w-2) {
		lines = append(lines, " "+style.Render(l))
	}
	return lines[:min(h, len(lines))], cursor
}
