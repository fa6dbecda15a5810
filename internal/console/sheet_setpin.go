package console

import (
	"errors"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
)

// setPIN asks for a member to get a PIN.
type setPIN struct {
	member string
	fresh  station.PIN
	by     station.Signature
}

// setPINSheet gives a member a PIN: their own, signed with the one before, or
// signed by a gear officer.
type setPINSheet struct {
	t      *theme
	fields fields
	err    string
	saving bool
}

const (
	rowSigner = "signer"
	rowProof  = "proof"
	rowFresh  = "fresh"
	rowAgain  = "again"
)

func newSetPIN(t *theme, x *advise.Snapshot, member, who string) *setPINSheet {
	s := &setPINSheet{t: t, fields: fields{t: t}}
	whose, signer := whoRow(x, member), whoRow(x, who)
	whose.label = "whose PIN"
	signer.name, signer.label = rowSigner, "signed by"
	s.fields.rows = []*row{
		whose, signer,
		secretRow(t, rowProof, "their PIN now", "of who signs; empty for the first gear officer's first"),
		secretRow(t, rowFresh, "new PIN", "4 to 12 digits"),
		secretRow(t, rowAgain, "again", "the same digits"),
	}
	s.fields.focus(0)
	return s
}

func (s *setPINSheet) title() string { return "Set a PIN" }

func (s *setPINSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "next, and set at the end", "enter"), bind("esc", "leave it as it is", "esc")}
}

func (s *setPINSheet) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	s.err = ""
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(k, keys.esc):
		return closeSheet{}
	case ok && key.Matches(k, keys.enter):
		return s.enter()
	}
	if s.fields.update(msg) {
		s.next()
	}
	return nil
}

func (s *setPINSheet) enter() action {
	if s.fields.at < len(s.fields.rows)-1 {
		s.next()
		return nil
	}
	a, err := s.ask()
	if err != nil {
		s.err = sentence(err)
		return nil
	}
	s.saving = true
	return a
}

// next goes on; who signs is whose PIN it is unless somebody else is chosen.
func (s *setPINSheet) next() {
	if whose := s.get(rowWho); s.fields.at == 0 && whose != "" {
		s.fields.row(rowSigner).set(whose)
	}
	s.fields.focus(s.fields.at + 1)
}

func (s *setPINSheet) get(name string) string { return s.fields.row(name).value() }

// ask is what the rows make.
func (s *setPINSheet) ask() (setPIN, error) {
	a := setPIN{
		member: s.get(rowWho), fresh: station.PIN(s.get(rowFresh)),
		by: station.Signature{By: s.get(rowSigner), PIN: station.PIN(s.get(rowProof))},
	}
	for _, name := range []string{rowWho, rowSigner} {
		if s.get(name) == "" {
			s.fields.focusOn(name)
			return a, errors.New("who is it? Press the key beside a name")
		}
	}
	if err := sameTwice(a.fresh, station.PIN(s.get(rowAgain))); err != nil {
		s.clear(rowFresh, rowAgain)
		return a, err
	}
	return a, nil
}

// sameTwice says what is wrong with a new PIN that was typed twice.
func sameTwice(fresh, again station.PIN) error {
	if err := fresh.Good(); err != nil {
		return err
	}
	if fresh != again {
		return errors.New("the two are not the same: type the new PIN again, twice")
	}
	return nil
}

// clear empties rows and goes to the first of them.
func (s *setPINSheet) clear(names ...string) {
	for _, name := range names {
		s.fields.row(name).set("")
	}
	s.fields.focusOn(names[0])
}

func (s *setPINSheet) refused(err error) {
	s.saving, s.err = false, sentence(err)
	switch refusal := new(bath.Refusal); {
	case !errors.As(err, &refusal):
	case refusal.ID == "pin-wrong", refusal.ID == "pin-missing":
		s.clear(rowProof)
	case refusal.ID == "role", refusal.ID == "pin-none":
		s.fields.focusOn(rowSigner)
	}
}

func (s *setPINSheet) view(w, h int) ([]string, *tea.Cursor) {
	note, style := wrap("Who has a PIN is asked for it when a wash is started, and for what only a gear officer may do.", w-2), s.t.muted
	switch {
	case s.saving:
		note = []string{"Saving…"}
	case s.err != "":
		note, style = wrap(s.t.mark("✗ ", "X ")+s.err, w-2), s.t.bad
	}
	note = note[:min(len(note), 3)]
	lines, cursor := s.fields.view(w, min(len(s.fields.rows), max(1, h-len(note)-1)))
	lines = append(lines, "")
	for _, l := range note {
		lines = append(lines, " "+style.Render(l))
	}
	return lines[:min(h, len(lines))], cursor
}
