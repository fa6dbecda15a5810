package console

import (
	"sync/atomic"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// practice is what stands back while a guide is practised on a copy of the log
// book. Everything the console does goes to the copy, and the copy is thrown
// away.
type practice struct {
	station *station.Station // the real one
	state   *bath.State
	who     remembered
	session station.Session // a practised wash does not make a PIN last
	rung    uint64
	done    func() error // takes the copy away
}

// practisingMsg says that there is a copy to practise on.
type practisingMsg struct {
	id   string
	copy *station.Station
	done func() error
	err  error
}

// leftPracticeMsg says that the copy is gone.
type leftPracticeMsg struct{ err error }

// aheadClock is the console's clock. Practice puts it forward where the real
// thing waits. Commands read it from outside Update.
type aheadClock struct {
	real  func() time.Time
	ahead atomic.Int64
}

func (c *aheadClock) now() time.Time { return c.real().Add(time.Duration(c.ahead.Load())) }

// openGuide shows a guide; a practice stays at its own.
func (m *Model) openGuide(id string) {
	m.shown = keys.guides.Help().Key
	if m.practice == nil {
		m.guides.open(id)
	}
}

// practise has a copy of the log book made, outside Update.
func (m *Model) practise(id string) tea.Cmd {
	if m.practice != nil || m.copying || m.station == nil {
		return nil
	}
	m.copying = true
	m.toast.pass("Copying the log book to practise on", m.now)
	st, now := m.station, m.o.Now
	return func() tea.Msg {
		copied, done, err := st.Practise(now)
		return practisingMsg{id, copied, done, err}
	}
}

// practising changes over to the copy. Where a form was opened meanwhile it is
// left: what is typed for the log book must not go into a copy.
func (m *Model) practising(msg practisingMsg) tea.Cmd {
	m.copying = false
	switch {
	case msg.err != nil:
		m.toast.stay("No practice now: " + m.explain(msg.err))
		return nil
	case m.top() != nil || m.quitting || m.practice != nil:
		m.toast.stay("Close this first, then practise")
		return func() tea.Msg { return leftPracticeMsg{msg.done()} }
	}
	m.practice = &practice{m.station, m.state, m.who, m.session, m.rung, msg.done}
	m.station, m.shown, m.rung = msg.copy, keys.guides.Help().Key, 0
	m.session = station.Session{}
	m.washing.making.clear() // what is ticked in a practice was looked at nowhere
	m.toast.pass("Practice: nothing you do now is logged", m.now)
	m.guides.rehearse(msg.id)
	return m.load()
}

// leavePractice goes back to the log book as it is, and throws the copy away.
func (m *Model) leavePractice() tea.Cmd {
	p := m.practice
	if p == nil {
		return nil
	}
	m.clockAhead.ahead.Store(0)
	m.practice, m.station, m.state, m.who, m.session, m.rung = nil, p.station, p.state, p.who, p.session, p.rung
	m.now = m.o.Now()
	m.guides.stop()
	m.washing.making.clear()
	m.assess()
	m.toast.pass("Practice is over: nothing of it is in the log book", m.now)
	return tea.Batch(m.load(), func() tea.Msg { return leftPracticeMsg{p.done()} })
}

// practised asks who practised, and who watched: the one line that the log
// book gets.
func (m *Model) practised(id string) tea.Cmd {
	cmd := m.leavePractice()
	m.openForm(openForm{kind: "practice", preset: map[string]string{"guide": id}})
	return cmd
}

func (m *Model) leftPractice(msg leftPracticeMsg) {
	if msg.err != nil {
		m.toast.stay("The copy that was practised on could not be thrown away: " + m.explain(msg.err))
	}
}

// skipAhead lets the time of a practice pass.
func (m *Model) skipAhead(by time.Duration) tea.Cmd {
	if m.practice == nil {
		return nil
	}
	m.clockAhead.ahead.Add(int64(by))
	m.now = m.o.Now()
	m.assess()
	return m.do(m.guides.pass())
}

// close ends what Run has begun: everything submitted is on disk after it.
func (m *Model) close() (err error) {
	if p := m.practice; p != nil {
		err = p.done()
		m.station = p.station
	}
	if m.station != nil {
		if left := m.station.Close(); err == nil {
			err = left
		}
	}
	return err
}

// banner is what the top lines say before all else.
func (m *Model) banner() string {
	switch {
	case m.practice != nil:
		return "PRACTICE"
	case m.o.Demo:
		return "DEMO"
	}
	return ""
}
