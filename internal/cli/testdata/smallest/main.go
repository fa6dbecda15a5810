// Smallest is the least a Bubble Tea program can be: one line on the
// alternate screen until a key. The console's start is measured against it.
package main

import (
	"os"

	tea "charm.land/bubbletea/v2"
)

type model struct{}

func (m model) Init() tea.Cmd { return nil }

func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.KeyPressMsg); ok {
		return m, tea.Quit
	}
	return m, nil
}

func (m model) View() tea.View {
	v := tea.NewView("Next")
	v.AltScreen = true
	return v
}

func main() {
	if _, err := tea.NewProgram(model{}).Run(); err != nil {
		os.Exit(1)
	}
}
