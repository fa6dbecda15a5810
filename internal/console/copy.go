package console

import (
	"strings"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/plain"
)

// copier is a screen or sheet that has something to copy besides a list.
type copier interface{ copied() string }

// copyMarked sends the marked row to the terminal's clipboard (OSC 52), which
// works over ssh. Whether the terminal took it cannot be known.
func (m *Model) copyMarked() tea.Cmd {
	var in any = m.screens[m.shown]
	if s := m.top(); s != nil {
		in = s
	}
	text := ""
	if c, ok := in.(copier); ok {
		text = c.copied()
	}
	if l, ok := listOf(in); ok && text == "" {
		text = l.marked()
	}
	text = plain.Line(strings.TrimSpace(text))
	if text == "" {
		m.toast.stay("Nothing here is marked to be copied")
		return nil
	}
	m.toast.pass("Sent to the clipboard: "+text, m.now)
	return tea.SetClipboard(text)
}
