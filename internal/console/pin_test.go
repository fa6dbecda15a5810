package console

import (
	"bytes"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/station"
	"bathside/internal/units"
)

// The PINs of these tests. Amari is a key holder, Noor the gear officer.
const (
	noorPIN  = "580213974602"
	amariPIN = "770264193518"
	wrongPIN = "446192085713"
)

// guarded is a console on a tended station where PINs are asked for.
func guarded(t testing.TB, w, h int) *desk {
	t.Helper()
	c := &clock{start}
	st := newStation(t, c)
	tended(t, c, st)
	noor := station.Signature{By: "Noor Haddad"}
	if err := st.SetPIN("Noor Haddad", noorPIN, noor); err != nil {
		t.Fatal(err)
	}
	noor.PIN = noorPIN
	if err := st.SetPIN("Amari Okafor", amariPIN, noor); err != nil {
		t.Fatal(err)
	}
	if err := st.Close(); err != nil {
		t.Fatal(err)
	}
	st, err := station.Open(st.Path(), station.Options{Now: c.now, Catalog: testCatalog(t), AskPIN: station.AskPIN, PINLine: station.PINLine})
	if err != nil {
		t.Fatal(err)
	}
	d := &desk{TB: t, clock: c, st: st}
	d.m = New(Options{Station: st, Catalog: st.Catalog(), Now: c.now, Profile: colorprofile.TrueColor, Glyphs: chart.Braille, Context: unwatched()})
	d.send(tea.WindowSizeMsg{Width: w, Height: h})
	d.run(d.m.load())
	t.Cleanup(func() {
		if err := st.Close(); err != nil {
			t.Error(err)
		}
	})
	return d
}

// choose opens the form of a title in the list of everything.
func (d *desk) choose(title string) {
	d.Helper()
	d.press("e")
	for range 60 {
		if strings.Contains(d.screen(), "▸ ") && d.m.top().(*kindsSheet).at == indexOf(d, title) {
			break
		}
		d.press("down")
	}
	d.press("enter")
	d.wants("▸" + title)
}

func indexOf(d *desk, title string) int {
	for i, o := range d.m.top().(*kindsSheet).all {
		if o.say == title {
			return i
		}
	}
	d.Fatalf("nothing is called %q", title)
	return 0
}

func (d *desk) said() (out []string) {
	d.Helper()
	lines, err := d.st.Lines(0, 1000)
	if err != nil {
		d.Fatal(err)
	}
	for _, e := range lines {
		out = append(out, e.By+": "+e.Say(units.US))
	}
	return out
}

func (d *desk) last() string { s := d.said(); return s[len(s)-1] }

// An officer's act asks each time. The sheet shows dots, and what was typed
// below it stays until the act is written.
func TestThePINSheetLiesOverTheForm(t *testing.T) {
	d := guarded(t, 100, 30)
	d.choose("Change a setting")
	d.m.top().(*form).fields.row("station").set("Hill Road 9")
	d.m.top().(*form).fields.focusOn(rowWho)
	d.press("n")
	d.wants("PIN of Noor Haddad", "Change a setting", "4 to 12 digits")
	d.typ("5x8q0")
	d.wants("•••")
	d.lacks("580")
	d.press("esc")
	d.wants("Change a setting", "Hill Road 9", "Not saved yet: it asks for the PIN of Noor Haddad; press enter to type it")
	d.press("enter")
	d.wants("PIN of Noor Haddad")
	d.lacks("•••") // the digits of before are forgotten
	d.press("enter")
	d.wants("Type the digits of the PIN.")
	d.typ(wrongPIN)
	d.press("enter")
	d.wants("PIN of Noor Haddad", "That is not the PIN of Noor Haddad: 4 tries are left before it is locked for 1 min")
	d.lacks("•••")
	d.typ(noorPIN)
	d.press("enter")
	d.wants("Saved: line 2", "Hill Road 9")
	if d.m.top() != nil {
		t.Errorf("a sheet is left: %s", d.m.top().title())
	}
	if got := d.last(); !strings.HasPrefix(got, "Noor Haddad: ") || !strings.Contains(got, "Hill Road 9") {
		t.Errorf("the last line is %q", got)
	}

	d.choose("Change a setting")
	d.m.top().(*form).fields.row("station").set("Hill Road 10")
	d.m.top().(*form).fields.focusOn(rowWho)
	d.press("n")
	d.wants("PIN of Noor Haddad")
}

func TestALockedPINGivesTheFormBack(t *testing.T) {
	d := guarded(t, 80, 24)
	d.choose("Change a setting")
	d.m.top().(*form).fields.row("station").set("Hill Road 9")
	d.m.top().(*form).fields.focusOn(rowWho)
	d.press("n")
	for range 5 {
		d.typ(wrongPIN)
		d.press("enter")
	}
	d.wants("Change a setting", "Hill Road 9", "for the 5th time: it is locked until")
	if _, asking := d.m.top().(*pinSheet); asking {
		t.Error("it is still asked for")
	}
	if got := d.last(); got != "Noor Haddad: PIN of Noor Haddad locked after wrong tries" {
		t.Errorf("the last line is %q", got)
	}
	d.clock.t = d.clock.t.Add(time.Minute)
	d.send(clockMsg(d.clock.t))
	d.press("enter")
	d.typ(noorPIN)
	d.press("enter")
	d.wants("Saved")
}

// Whoever may not do it anyway is told so, and not asked.
func TestTheRoleIsCheckedBeforeThePIN(t *testing.T) {
	d := guarded(t, 100, 30)
	d.choose("Change a setting")
	d.m.top().(*form).fields.row("station").set("Hill Road 9")
	d.m.top().(*form).fields.focusOn(rowWho)
	d.press("a")
	d.wants("Amari Okafor is a key holder")
	if _, asked := d.m.top().(*pinSheet); asked {
		t.Error("a PIN is asked for")
	}
}

// start tries to start a wash as Amari.
func (d *desk) start() {
	d.Helper()
	d.press("s")
	d.typ("tool=2")
	d.press("enter")
	d.typ("4")
	d.press("enter")
	d.typ("115")
	d.press("enter")
	d.m.top().(*form).fields.row("checked").set("yes")
	d.m.top().(*form).fields.row("lids").set("yes")
	d.press("a")
}

// Starting asks a key holder once in a wash session, which the last wash makes
// last; recording asks nobody.
func TestAWashSessionAsksOnce(t *testing.T) {
	d := guarded(t, 100, 30)
	if _, err := d.st.Record(station.Draft{By: "Lee", Body: &bath.Intake{Else: bath.ElseNone}}); err != nil {
		t.Fatal(err)
	}
	d.start()
	d.wants("PIN of Amari Okafor", "Start a wash: started: ")
	d.typ(amariPIN)
	d.press("enter")
	d.wants("Saved")
	wash := func(after time.Duration) {
		t.Helper()
		d.clock.t = d.clock.t.Add(after)
		d.send(clockMsg(d.clock.t))
		d.run(d.m.submit([]draft{{By: "Lee Tran", Body: &bath.Wash{
			Items: []bath.Load{{Item: "tool", Count: 2}}, Soil: "normal", Time: units.Minutes(4), BathC: 45, Result: bath.ResultClean,
		}}}))
		d.wants("Saved")
	}
	wash(20 * time.Minute)
	d.clock.t = d.clock.t.Add(25 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.start()
	d.wants("Saved")
	wash(time.Minute)
	d.clock.t = d.clock.t.Add(30 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.start()
	d.wants("PIN of Amari Okafor")
}

func TestASessionEndsAtShiftChange(t *testing.T) {
	d := guarded(t, 100, 30)
	d.clock.t = d.m.x.Shift.End.Add(-10 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.m.session = station.BeginSession("Amari Okafor", d.m.now, d.m.x.Shift.End)
	if !d.m.session.Covers("Amari Okafor", d.m.x.Shift.End.Add(-time.Second)) || d.m.session.Covers("Amari Okafor", d.m.x.Shift.End) {
		t.Errorf("the session lasts until %s, the shift until %s", d.m.session.Until(), d.m.x.Shift.End)
	}
}

func TestAPINIsSetInTheConsole(t *testing.T) {
	d := guarded(t, 100, 30)
	d.choose("Set a PIN")
	d.press("right", "right", "right") // Lee is off duty and has no key
	d.wants("[Lee Tran]")
	d.press("enter", "n") // signed by Noor
	d.typ(noorPIN)
	d.press("enter")
	d.typ("1234")
	d.press("enter")
	d.typ("1234")
	d.press("enter")
	d.wants("The PIN is digits in a row")
	d.typ(wrongPIN)
	d.press("enter")
	d.typ(wrongPIN)
	d.lacks(wrongPIN[:3])
	d.press("enter")
	d.wants("PIN of Lee Tran set")
	if _, err := d.st.Authorize("Lee", wrongPIN); err != nil {
		t.Error(err)
	}
	if got := d.last(); got != "Noor Haddad: PIN of Lee Tran set" {
		t.Errorf("the last line is %q", got)
	}
}

func TestAWrongSignatureIsTypedAgain(t *testing.T) {
	d := guarded(t, 60, 16)
	d.choose("Set a PIN")
	d.press("a", "enter")
	d.typ(wrongPIN)
	d.press("enter")
	for range 2 {
		d.typ("9031")
		d.press("enter")
	}
	d.wants("That is not the PIN of Amari Okafor")
	d.typ(amariPIN)
	d.press("enter", "enter", "enter")
	d.wants("PIN of Amari Okafor set")
}

// The sheets fit every window, and no PIN is ever drawn, written to the log
// book or exported.
func TestPINSheetsFitAndTellNothing(t *testing.T) {
	d := guarded(t, 100, 30)
	d.choose("Set a PIN")
	d.sweep()
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	d.press("esc")
	d.choose("Change a setting")
	d.m.top().(*form).fields.row("station").set("Hill Road 9")
	d.m.top().(*form).fields.focusOn(rowWho)
	d.press("n")
	d.typ(noorPIN[:11])
	d.sweep()
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	for _, r := range noorPIN[11:] {
		d.typ(string(r))
		d.lacks(noorPIN[:4])
	}
	d.press("enter")
	d.wants("Saved")
	var export bytes.Buffer
	if err := d.st.Export(&export); err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{noorPIN, amariPIN, "argon2"} {
		if strings.Contains(export.String(), secret) || strings.Contains(strings.Join(d.said(), "\n"), secret) {
			t.Errorf("%s is in the log book", secret)
		}
	}
}

func TestSetUpOffersAFirstPIN(t *testing.T) {
	d := nothing(t, 100, 30)
	d.typ("Ridge Top, station 2")
	d.press("enter")
	d.typ("Noor Haddad")
	d.press("enter", "enter")
	d.typ("70gal")
	for d.m.top().(*setup).fields.rows[d.m.top().(*setup).fields.at].name != "pin" {
		d.press("tab")
	}
	d.wants("first PIN")
	d.typ("1234")
	d.press("enter", "enter")
	d.wants("The PIN is digits in a row")
	d.press("backspace", "backspace", "backspace", "backspace")
	d.typ(noorPIN)
	d.press("enter")
	d.typ(wrongPIN)
	d.press("enter")
	d.wants("The two are not the same")
	d.press("tab")
	for range len(wrongPIN) {
		d.press("backspace")
	}
	d.typ(noorPIN)
	d.press("enter")
	d.wants("Ridge Top, station 2", "The station is set up")
	if _, err := d.st.Authorize("Noor Haddad", noorPIN); err != nil {
		t.Error(err)
	}
}
