package console

import (
	tea "charm.land/bubbletea/v2"
)

// The mouse is off until the station's setting or f6 turns it on: a terminal
// whose mouse is taken cannot select text (most still do with shift held).

// mouseOn reports whether the terminal's mouse is asked for.
func (m *Model) mouseOn() bool {
	if m.pointer != nil {
		return *m.pointer
	}
	return m.state != nil && m.state.Site.Mouse != nil && *m.state.Site.Mouse
}

func (m *Model) toggleMouse() {
	on := !m.mouseOn()
	m.pointer = &on
	if on {
		m.toast.pass("Mouse on: click and wheel work; hold shift to select text, f6 frees it", m.now)
		return
	}
	m.toast.pass("Mouse off: the terminal selects text again", m.now)
}

// clicked is a screen that can be pointed at. The place is counted from the
// first row below the strip.
type clicked interface{ click(x, y int) }

// click gives a panel the keys, and marks the row under the pointer.
func (m *Model) click(msg tea.MouseClickMsg) tea.Cmd {
	if !m.mouseOn() || m.x == nil || m.top() != nil || msg.Button != tea.MouseLeft || m.l.tiny {
		return nil
	}
	y := msg.Y - stripH
	if y < 0 || y >= m.l.body.Dy() {
		return nil
	}
	if c, ok := m.screens[m.shown].(clicked); ok {
		c.click(msg.X, y)
	}
	m.clickRow(y)
	return nil
}

// clickRow marks a row of the list in focus, where its rows can be told apart.
func (m *Model) clickRow(y int) {
	l, ok := listOf(m.screens[m.shown])
	if !ok || l.y == 0 {
		return
	}
	if i := l.from + y - l.y; y >= l.y && i < len(l.rows) {
		l.mark(i)
	}
}

// wheel moves what has the keys, as the arrows do.
func (m *Model) wheel(msg tea.MouseWheelMsg) tea.Cmd {
	if !m.mouseOn() {
		return nil
	}
	switch msg.Button {
	case tea.MouseWheelUp:
		return m.key(keyPress("up"))
	case tea.MouseWheelDown:
		return m.key(keyPress("down"))
	}
	return nil
}
