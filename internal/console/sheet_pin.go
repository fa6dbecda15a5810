package console

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/plain"
	"bathside/internal/station"
)

// pinSheet asks for a member's PIN over what needs it, and sends that again.
// What is typed shows as dots and is forgotten with the sheet.
type pinSheet struct {
	t      *theme
	x      *advise.Snapshot
	drafts []draft
	member string
	over   bool // a sheet below made the entries
	fields fields
	err    string
	saving bool
}

func newPINSheet(t *theme, x *advise.Snapshot, drafts []draft, member string, over bool) *pinSheet {
	s := &pinSheet{t: t, x: x, drafts: slices.Clone(drafts), member: member, over: over, fields: fields{t: t}}
	s.fields.rows = []*row{secretRow(t, "pin", "PIN", "")}
	s.fields.focus(0)
	return s
}

func (s *pinSheet) title() string { return "PIN of " + s.member }

func (s *pinSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "sign with it", "enter"), bind("esc", "back, nothing saved", "esc")}
}

func (s *pinSheet) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	if k, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(k, keys.esc):
			return closeSheet{}
		case key.Matches(k, keys.enter):
			return s.sign()
		}
	}
	s.fields.update(msg)
	return nil
}

func (s *pinSheet) sign() action {
	typed := station.PIN(s.fields.rows[0].value())
	if typed == "" {
		s.err = "Type the digits of the PIN."
		return nil
	}
	for i := range s.drafts {
		if strings.EqualFold(s.drafts[i].By, s.member) {
			s.drafts[i].PIN = typed
		}
	}
	s.fields.rows[0].set("")
	s.saving, s.err = true, ""
	return submit{s.drafts}
}

// again asks once more: the PIN was wrong, or that of another is wanted too.
func (s *pinSheet) again(denied *station.PINError) {
	s.saving, s.err, s.member = false, "", denied.Member
	if denied.ID == "pin-wrong" {
		s.err = capital(denied.Error())
	}
}

// signs is what the PIN is for.
func (s *pinSheet) signs() string {
	if n := len(s.drafts); n > 1 {
		return fmt.Sprintf("%d lines, recorded together", n)
	}
	e := bath.Entry{Body: s.drafts[0].Body}
	if spec, ok := bath.SpecOf(e.Kind()); ok {
		return spec.Title + ": " + e.Say(s.x.Sys)
	}
	return e.Say(s.x.Sys)
}

func (s *pinSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines := []string{pad(" "+plain.Line(s.signs()), w), ""}
	form, cursor := s.fields.view(w, 1)
	if cursor != nil {
		cursor.Y += len(lines)
	}
	lines = append(append(lines, form...), "")
	note, style := []string{"4 to 12 digits; they are not shown"}, s.t.muted
	switch {
	case s.saving:
		note = []string{"Checking…"}
	case s.err != "":
		note, style = wrap(s.t.mark("✗ ", "X ")+s.err, w-2), s.t.bad
	}
	for _, l := range note {
		lines = append(lines, " "+style.Render(l))
	}
	return lines[:min(h, len(lines))], cursor
}
