package console

import (
	"errors"
	"slices"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// What the model does about PINs: it asks for one over the sheet that needs it,
// sends the same entries again with it, and remembers a wash session.

// denied says what came of a record that was not taken: it is asked for a PIN,
// or the sheet that sent it gets it back.
func (m *Model) denied(msg recordedMsg) {
	m.quitting = false
	asked, asking := m.top().(*pinSheet)
	denied, ok := errors.AsType[*station.PINError](msg.Err)
	switch {
	case !ok || denied.ID != "pin-missing" && denied.ID != "pin-wrong":
		if asking {
			m.pop()
		}
		m.refused(msg.Err)
	case asking:
		asked.again(denied)
	default:
		over := m.top() != nil
		if over {
			m.refused(&bath.Refusal{ID: denied.ID, Say: "not saved yet: it asks for the PIN of " + denied.Member + "; press enter to type it"})
		}
		m.push(newPINSheet(m.t, m.x, msg.drafts, denied.Member, over))
	}
}

// popSaved takes away the sheet whose entries are saved, with what asked for a
// PIN over it.
func (m *Model) popSaved() {
	if asked, ok := m.top().(*pinSheet); ok {
		m.pop()
		if !asked.over {
			return
		}
	}
	m.pop()
}

// inSession gives entries the wash session, which is for the station to judge.
func (m *Model) inSession(drafts []draft) []draft {
	drafts = slices.Clone(drafts)
	for i := range drafts {
		drafts[i].Session = m.session
	}
	return drafts
}

// keepSession begins a wash session where a PIN was taken for a start, and
// lets washes make it last.
func (m *Model) keepSession(msg recordedMsg) {
	for i, e := range msg.Entries {
		switch e.Body.(type) {
		case *bath.Start, *bath.Resume:
			if msg.drafts[i].PIN != "" {
				m.session = station.BeginSession(e.By, m.now, m.x.Shift.End)
			}
		case *bath.Wash, *bath.Abort:
		default:
			continue
		}
		m.session = m.session.Washed(e.At)
	}
}

// pinSetMsg is what came of setting a PIN.
type pinSetMsg struct {
	member string
	err    error
}

func (m *Model) setPIN(a setPIN) tea.Cmd {
	m.pending++
	st := m.station
	return func() tea.Msg { return pinSetMsg{a.member, st.SetPIN(a.member, a.fresh, a.by)} }
}

func (m *Model) pinSet(msg pinSetMsg) tea.Cmd {
	m.pending--
	if msg.err != nil {
		m.refused(msg.err)
		return m.replay()
	}
	m.pop()
	m.toast.pass("PIN of "+msg.member+" set", m.now)
	if m.quitting && m.pending == 0 {
		return tea.Quit
	}
	return tea.Batch(m.load(), m.replay())
}
