package console

import (
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func crewed(t *testing.T, pin station.PIN) *desk {
	t.Helper()
	d := sit(t, 100, 30, true)
	on := true
	if _, err := d.st.Record(stationDraft("Noor", &bath.Setting{StationMode: &on, Mouse: &on})); err != nil {
		t.Fatal(err)
	}
	if pin != "" {
		if err := d.st.SetPIN("Noor Haddad", pin, station.Signature{By: "Noor Haddad"}); err != nil {
			t.Fatal(err)
		}
	}
	d.run(d.m.load())
	return d
}

// In station mode the crew have Today and Wash, and record everything from
// there.
func TestStationModeShowsTheCrewTwoScreens(t *testing.T) {
	d := crewed(t, "")
	d.wants("[1 Today] 4 Wash")
	d.lacks("2 Readings")
	d.press("4")
	d.wants("[4 Wash]")
	d.press("7")
	d.wants("A gear officer's screen")
	d.press("esc")
	d.wants("[4 Wash]")
	d.press("p")
	d.wants("Record a pH reading")
	d.press("esc", "1")
	d.press("g")
	d.wants("step 1 of")
	d.press("esc")
	d.wants("[1 Today]", "Take the weekly pH")
}

// A gear officer opens the rest, and it closes by itself.
func TestAnOfficerOpensTheOtherScreens(t *testing.T) {
	d := crewed(t, "2840")
	d.press("7", "enter")
	d.wants("PIN")
	d.typ("1111")
	d.press("enter")
	d.wants("That is not the PIN of Noor Haddad")
	d.typ("2840")
	d.press("enter")
	d.wants("Open for Noor", "settings: station mode yes")
	d.clock.t = d.clock.t.Add(6 * time.Second)
	d.send(clockMsg(d.clock.t))
	d.wants("[7 Log book]", "1 2 3 4 5 6")
	d.clock.t = d.clock.t.Add(11 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.wants("[1 Today] 4 Wash")
	d.lacks("Log book")
}

// The mouse is a setting: a click gives a panel the keys, the wheel moves.
func TestTheMouse(t *testing.T) {
	d := sit(t, 100, 30, true)
	if d.m.View().MouseMode != tea.MouseModeNone {
		t.Fatal("the mouse is taken by default")
	}
	d.send(tea.MouseClickMsg{X: 10, Y: 20, Button: tea.MouseLeft})
	if d.m.today.focus != 0 {
		t.Fatal("a click counted with the mouse off")
	}
	d.press("f6")
	d.wants("Mouse on")
	if d.m.View().MouseMode != tea.MouseModeCellMotion {
		t.Fatal("the mouse is not asked for")
	}
	d.send(tea.MouseClickMsg{X: 5, Y: 19, Button: tea.MouseLeft})
	if d.m.today.focus != 2 || d.m.today.cycle.at != 2 {
		t.Fatalf("focus %d, item %d, want the third item of the cycle panel\n%s", d.m.today.focus, d.m.today.cycle.at, d.screen())
	}
	d.send(tea.MouseWheelMsg{Button: tea.MouseWheelDown})
	if d.m.today.cycle.at != 3 {
		t.Error("the wheel did not move the mark")
	}
	d.press("7")
	d.send(tea.MouseClickMsg{X: 5, Y: stripH + 4, Button: tea.MouseLeft})
	if d.m.log.at != 3 {
		t.Errorf("the log book's mark is at %d, want 3", d.m.log.at)
	}
}

// A key of a Cyrillic layout is the key that stands there on a Latin one.
func TestOtherLayoutsReachTheShortcuts(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.send(tea.KeyPressMsg{Code: 'з', Text: "з", BaseCode: 'p'})
	d.wants("Record a pH reading")
	d.press("esc", "n")
	d.send(tea.KeyPressMsg{Code: 'з', Text: "з", BaseCode: 'p'})
	d.wants("з")
}

// Over a slow line escape and the key after it come in one piece, which reads
// as one key with alt: both are done. Into a form alt is typed as ever.
func TestEscapeAndTheNextKeyInOnePiece(t *testing.T) {
	alt := func(r rune) tea.KeyPressMsg { return tea.KeyPressMsg{Code: r, Mod: tea.ModAlt} }
	d := sit(t, 100, 30, true)
	d.press("?")
	d.wants("What can be done here")
	d.send(alt('2'))
	d.lacks("What can be done here")
	d.wants("[2 Readings]")
	d.press("6", "enter")
	d.wants("esc leave it")
	d.send(alt('p'))
	d.wants("Record a pH reading")
	d.press("9", "9")
	d.send(alt('1'))
	d.wants("Record a pH reading", "99")
	d.press("esc")
	d.wants("[6 Guides]", "Guides and cards")
}
