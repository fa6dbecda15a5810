package console

import (
	"errors"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// strikeSheet names a line and asks why it is crossed out.
type strikeSheet struct {
	t      *theme
	x      *advise.Snapshot
	line   bath.Entry
	fields fields
	err    string
	saving bool
}

func newStrike(t *theme, x *advise.Snapshot, line bath.Entry, who string) *strikeSheet {
	s := &strikeSheet{t: t, x: x, line: line, fields: fields{t: t}}
	s.fields.rows = []*row{newRow("why", "why", "both lines stay visible"), whoRow(x, who)}
	s.fields.focus(0)
	return s
}

func (s *strikeSheet) title() string { return "Cross out a line" }

func (s *strikeSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "go on, then cross out", "enter"), bind("esc", "leave the line as it is", "esc")}
}

func (s *strikeSheet) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	s.err = ""
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(k, keys.esc):
		return closeSheet{}
	case ok && key.Matches(k, keys.enter) && s.fields.at == 0:
		s.fields.focus(1)
		return nil
	case ok && key.Matches(k, keys.enter):
		return s.strike()
	}
	if s.fields.update(msg) {
		return s.strike()
	}
	return nil
}

func (s *strikeSheet) strike() action {
	why, who := s.fields.rows[0].value(), s.fields.rows[1].value()
	switch {
	case why == "":
		s.fields.focus(0)
		s.err = "Give a reason: both lines stay visible."
		return nil
	case who == "":
		s.err = "Who is it? Press the key beside a name."
		return nil
	}
	s.saving = true
	return submit{[]draft{{By: who, Body: &bath.Strike{Target: s.line.Seq, Why: why}}}}
}

func (s *strikeSheet) refused(err error) { s.saving, s.err = false, sentence(err) }

func (s *strikeSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines := []string{pad(" "+lineSay(s.line, s.x), w), ""}
	form, cursor := s.fields.view(w, 2)
	if cursor != nil {
		cursor.Y += len(lines)
	}
	lines = append(lines, form...)
	lines = append(lines, "")
	if s.err != "" {
		for _, l := range wrap(s.t.mark("✗ ", "X ")+s.err, w-2) {
			lines = append(lines, " "+s.t.bad.Render(l))
		}
	}
	return lines[:min(h, len(lines))], cursor
}

// sentence is an error as the crew reads it.
func sentence(err error) string {
	var refusal *bath.Refusal
	if errors.As(err, &refusal) {
		return capital(refusal.Say)
	}
	return capital(err.Error())
}
