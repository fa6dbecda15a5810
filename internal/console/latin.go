package console

import (
	"unicode"

	tea "charm.land/bubbletea/v2"
)

// latin is the key as a layout with Latin letters has it, where the terminal
// says so: the shortcuts work under a Cyrillic or Greek layout too. What is
// typed into a form stays as it was typed.
func latin(msg tea.KeyPressMsg) tea.KeyPressMsg {
	if msg.BaseCode == 0 || msg.Code <= unicode.MaxASCII || msg.Mod&^tea.ModShift != 0 {
		return msg
	}
	msg.Code, msg.Text = msg.BaseCode, string(msg.BaseCode)
	return msg
}
