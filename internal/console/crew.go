package console

import (
	"slices"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
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
