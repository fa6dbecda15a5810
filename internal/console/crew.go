package console

import (
	"slices"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/station"
)

// Station mode: the crew have two screens, Today and Wash, and everything that
// is recorded from them. The other screens are a gear officer's; guides open
// from what is marked in Next.

// crewScreens are those that everybody has.
var crewScreens = []key.Binding{keys.today, keys.washing}

// officerIdle is how long the other screens stay open while no key is pressed.
const officerIdle = 10 * time.Minute

// crewOnly reports whether the console shows the crew's screens alone.
func (m *Model) crewOnly() bool {
	on := m.state != nil && m.state.Site.StationMode != nil && *m.state.Site.StationMode
	return on && !m.officer && m.practice == nil
}

// screensHere are the screens that can be opened now.
func (m *Model) screensHere() []key.Binding {
	if m.crewOnly() {
		return crewScreens
	}
	return screenBindings
}

// show goes to a screen, or asks a gear officer to open it.
func (m *Model) show(number string) {
	if m.crewOnly() && !slices.ContainsFunc(crewScreens, func(b key.Binding) bool { return b.Help().Key == number }) {
		m.push(newUnlock(m.t, m.x, number))
		return
	}
	m.shown = number
}

// keepToCrew goes back to Today from a guide that is left, where its screen is
// an officer's.
func (m *Model) keepToCrew() {
	g := m.guides
	if m.crewOnly() && m.shown == keys.guides.Help().Key && g.walk == nil && g.card == nil {
		m.shown = keys.today.Help().Key
	}
}

// lockAgain closes the officer's screens when nobody has touched them for a
// while.
func (m *Model) lockAgain() {
	if m.officer && m.now.Sub(m.touched) > officerIdle && m.top() == nil {
		m.officer = false
		if m.crewOnly() {
			m.shown = keys.today.Help().Key
		}
	}
}

type (
	// unlock asks for the officer's screens, with the PIN of one who has one.
	unlock struct {
		who    string
		pin    station.PIN
		number string
	}
	// unlockedMsg is what came of it.
	unlockedMsg struct {
		unlock
		needsPIN bool
		err      error
	}
)

func (m *Model) unlock(a unlock) tea.Cmd {
	m.pending++
	st := m.station
	return func() tea.Msg {
		has, err := st.HasPIN(a.who)
		switch {
		case err != nil || !has:
		case a.pin == "":
			return unlockedMsg{unlock: a, needsPIN: true}
		default:
			_, err = st.Authorize(a.who, a.pin)
		}
		return unlockedMsg{unlock: a, err: err}
	}
}

func (m *Model) unlocked(msg unlockedMsg) {
	m.pending--
	s, ok := m.top().(*unlockSheet)
	switch {
	case !ok:
	case msg.needsPIN:
		s.askPIN()
	case msg.err != nil:
		s.refused(msg.err)
	default:
		m.pop()
		m.officer, m.shown = true, msg.number
		m.toast.pass("Open for "+firstName(msg.who)+": closes after 10 min without a key", m.now)
	}
}
