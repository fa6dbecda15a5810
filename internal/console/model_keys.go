package console

import (
	"unicode"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// A key goes to the sheet on top; without one first to what works on every
// screen, then to the screen that is shown.

func (m *Model) key(msg tea.KeyPressMsg) tea.Cmd {
	if next, ok := afterEscape(msg); ok && !m.typing() {
		return tea.Batch(m.key(tea.KeyPressMsg{Code: tea.KeyEscape}), m.key(next))
	}
	m.toast.keyPressed()
	m.touched = m.now
	m.leaving = m.leaving && key.Matches(msg, keys.quit)
	switch msg.Keystroke() {
	case "ctrl+c":
		return m.quit(m.quitting)
	case "ctrl+z":
		return tea.Suspend
	case "f6":
		m.toggleMouse()
		return nil
	}
	if m.top() != nil {
		return m.keySheet(msg)
	}
	if m.x == nil {
		if key.Matches(msg, keys.quit) {
			return m.quit(false)
		}
		return nil
	}
	msg = latin(msg)
	cmd, ok := m.global(msg)
	if !ok {
		cmd = m.do(m.keyScreen(msg))
	}
	m.keepToCrew()
	return cmd
}

// afterEscape is the key that came in one piece with escape: over a slow line,
// or from a quick hand, the two read as that key with alt, which means nothing
// here.
func afterEscape(msg tea.KeyPressMsg) (tea.KeyPressMsg, bool) {
	if msg.Mod != tea.ModAlt {
		return msg, false
	}
	next := tea.KeyPressMsg{Code: msg.Code}
	if unicode.IsPrint(msg.Code) {
		next.Text = string(msg.Code)
	}
	return next, true
}

// typing reports whether text is typed into the sheet on top, where alt moves
// by words.
func (m *Model) typing() bool {
	if m.top() == nil {
		return false
	}
	_, ok := listOf(m.top())
	return !ok
}

// keyScreen gives a key to the screen that is shown. Where the screen has no
// answer of its own, i asks where its figures come from.
func (m *Model) keyScreen(msg tea.KeyPressMsg) action {
	a := m.screens[m.shown].key(msg)
	if a == nil && key.Matches(msg, keys.explain) {
		return explainFigure{m.figureHere()}
	}
	return a
}

// keySheet gives a key to the sheet on top. While the disk is asked it waits.
func (m *Model) keySheet(msg tea.KeyPressMsg) tea.Cmd {
	if m.pending > 0 {
		m.held = append(m.held, msg)
		return nil
	}
	if _, ok := listOf(m.top()); ok {
		switch {
		case key.Matches(msg, keys.find):
			m.push(newFind(m.t, m.top()))
			return nil
		case key.Matches(msg, keys.copy):
			return m.copyMarked()
		}
	}
	return m.do(m.top().update(msg))
}

// global carries out a key that works on every screen.
func (m *Model) global(msg tea.KeyPressMsg) (tea.Cmd, bool) {
	switch {
	case key.Matches(msg, keys.quit):
		return m.leave(), true
	case key.Matches(msg, keys.help):
		m.push(newHelp(m.t, m.screens[m.shown].bindings(), m.anywhere(), m.whyNot))
	case key.Matches(msg, keys.palette):
		m.push(newPalette(m.t, m.offers()))
	case key.Matches(msg, keys.messages):
		m.push(newMessages(m.t, m.x, m.toast.said))
	case key.Matches(msg, keys.undo):
		m.undo()
	case key.Matches(msg, keys.find):
		return m.do(openFind{}), true
	case key.Matches(msg, keys.copy):
		return m.copyMarked(), true
	case key.Matches(msg, keys.record):
		m.push(newKinds(m.t))
	case key.Matches(msg, keys.catch):
		m.push(newCatchUp(m.t, m.x))
	case key.Matches(msg, keys.bath):
		m.nextBath()
	case m.screens[msg.String()] != nil:
		m.show(msg.String())
	default:
		return m.keyKind(msg)
	}
	return nil, true
}

// keyKind opens the form of a kind by its key, or says why it cannot be opened.
func (m *Model) keyKind(msg tea.KeyPressMsg) (tea.Cmd, bool) {
	for _, kk := range kindKeys {
		if !key.Matches(msg, *kk.key) {
			continue
		}
		if why := m.x.WhyNot(kk.kind); why != "" {
			return m.do(cannot{why}), true
		}
		return m.do(openForm{kind: kk.kind, preset: m.presetHere(kk.kind)}), true
	}
	return nil, false
}
