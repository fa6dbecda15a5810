package console

import (
	"image/color"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// readings lists the pH values of the open fill.
func (d *desk) readings() (out []float64) {
	d.Helper()
	st, err := d.st.State()
	if err != nil {
		d.Fatal(err)
	}
	l, _ := st.Baths[0].Life()
	for _, r := range bath.Of[*bath.Reading](l.Entries) {
		out = append(out, float64(r.Is.PH))
	}
	return out
}

func TestReadingTakesTenKeys(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "1", "0", "1", "2", "enter", "1", "2", "1", "enter")
	d.wants("10.12", "121 °F", "Down 0.30 ± 0.06 from 10.42: real, not yet at the limit.")
	d.press("a") // Amari, on the duty list: eleven keys for a four-digit pH, ten for three
	d.wants("Saved: line 23", "pH 10.12", "GETTING CLOSE")
	if got := d.readings(); got[len(got)-1] != 10.12 {
		t.Fatalf("stored readings %v, want 10.12 last", got)
	}
}

func TestWhoIsForgottenAtShiftChange(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "9", "9", "8", "enter", "1", "2", "1", "enter", "a")
	d.press("f", "3", "0", "enter")
	d.wants("[A Amari]")
	d.press("esc")
	d.clock.t = d.clock.t.Add(25 * time.Hour)
	d.send(clockMsg(d.clock.t))
	d.press("f", "3", "0", "enter")
	d.lacks("[A Amari]")
}

func TestWrongInputStaysInTheForm(t *testing.T) {
	for _, c := range []struct {
		name string
		keys []string
		says string
	}{
		{"text for a number", []string{"p", "x", "enter"}, "pH"},
		{"beyond 14", []string{"p", "1", "5", ".", "2", "enter"}, "0 to 14"},
		{"no temperature", []string{"p", "9", "9", "5", "enter", "enter"}, "Sample at is missing"},
		{"steam", []string{"p", "9", "9", "5", "enter", "3", "0", "0", "enter", "a"}, "not that of a bath of water"},
		{"comma", []string{"d", "2", ",", "5", "enter"}, "comma"},
		{"too much soap", []string{"d", "9", "enter", "a"}, "beyond the strongest ratio"},
		{"unknown item", []string{"r", "h", "e", "l", "m", "u", "t", "enter", "5", "enter", "1", "2", "1", "enter", "a"}, "helmet"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sit(t, 100, 30, true)
			before, _ := d.st.Seal()
			d.press(c.keys...)
			d.wants(c.says)
			if d.m.top() == nil {
				t.Fatal("the form is gone, and with it what was typed")
			}
			if after, _ := d.st.Seal(); after != before {
				t.Error("something was written")
			}
		})
	}
}

func TestRiseWithoutSoapIsAsked(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "1", "0", "4", "0", "enter", "1", "2", "1", "enter", "a")
	d.wants("Why?")
	if n := len(d.readings()); n != 4 {
		t.Fatalf("%d readings, want 4: it is asked before it is kept", n)
	}
	d.press("enter")
	d.wants("Saved", "Read again: the pH went up")
	d.wants("pH 10.20") // the trend does not turn: the strip keeps the last trusted one
}

func TestRedTagStopsTheBath(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("e")
	for !strings.Contains(d.screen(), "▸   Red tag") && !strings.Contains(d.screen(), "▸    Red tag") {
		d.press("down")
	}
	d.press("enter", "h") // heater
	d.press("enter")
	d.typ("trips the breaker")
	d.press("enter", "a")
	d.wants("DO NOT USE, tagged by Amari Okafor", "trips the breaker")
	d.press("7")
	d.wants("DO NOT USE")
	d.press("1", "tab", "tab")
	d.wants("the bath is red-tagged")
}

func TestCrossingOutTheFirstReadingPromotesNothing(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("2", "end", "x") // the oldest reading: the first, hot
	d.wants("first reading")
	d.typ("meter was not rinsed")
	d.press("enter", "n") // Noor, the gear officer
	d.press("2")
	d.wants("Crossed out: line 11")
	st, err := d.st.State()
	if err != nil {
		t.Fatal(err)
	}
	l, _ := st.Baths[0].Life()
	if j := advise.Judge(st, st.Baths[0], l); j.State != advise.PHUnknown || j.First != nil {
		t.Errorf("state %s, first %v: want unknown, and nothing promoted", j.State, j.First)
	}
	d.wants("READ AGAIN")
}

func TestCatchUpRecordsSeveralLinesAtOnce(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("c", "f")
	d.typ("sun 12:00")
	d.press("shift+tab", "shift+tab") // back to how long, above who and when
	d.typ("30")
	d.press("enter", "a")
	d.wants("filter ran 30 min")
	d.press("t")
	d.typ("sun 09:00")
	d.press("shift+tab", "shift+tab")
	d.typ("120")
	d.press("enter", "enter")
	d.wants("bath at 120 °F", "filter ran 30 min")
	before, _ := d.st.Lines(0, 100)
	d.press("enter")
	d.wants("Saved: lines 23 to 24")
	after, _ := d.st.Lines(0, 100)
	if len(after) != len(before)+2 {
		t.Fatalf("%d lines, want %d", len(after), len(before)+2)
	}
	if got, want := after[len(after)-2].At, start.Add(20*24*time.Hour+time.Hour); !got.Equal(want) {
		t.Errorf("the earlier line happened %s, want %s", got, want)
	}
}

func TestAnotherProcessShowsUp(t *testing.T) {
	d := sit(t, 100, 30, true)
	if _, err := d.st.Record(stationDraft("Lee", &bath.Temp{BathC: units.Fahrenheit(119)})); err != nil {
		t.Fatal(err)
	}
	d.run(d.m.load()) // what a tick of the watch asks for
	d.wants("119 °F")
}

func TestKeysWhileSavingAreNotLost(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "9", "9", "8", "enter", "1", "2", "1", "enter")
	_, cmd := d.m.Update(keyPress("a")) // queued; the disk has not answered
	d.send(keyPress("7"))
	d.lacks("Line 23")
	d.run(cmd)
	d.wants("Log book", "Line 23")
}

func TestQuitWaitsForWrites(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "9", "9", "8", "enter", "1", "2", "1", "enter")
	_, cmd := d.m.Update(keyPress("a"))
	_, quit := d.m.Update(tea.KeyPressMsg{Code: 'c', Mod: tea.ModCtrl})
	if quit != nil {
		t.Fatal("left while a reading was being written")
	}
	msg := cmd()
	_, quit = d.m.Update(msg)
	if quit == nil {
		t.Fatal("stayed after the reading was written")
	}
	if _, ok := quit().(tea.QuitMsg); !ok {
		t.Fatalf("want to quit, got %T", quit())
	}
}

func TestSetUpFromNothing(t *testing.T) {
	d := nothing(t, 100, 30)
	d.wants("Set up this station")
	d.typ("Ridge Top, station 2")
	d.press("enter")
	d.typ("Noor Haddad")
	d.press("enter", "enter")
	d.typ("70gal")
	d.press("enter", "enter", "enter", "enter")
	d.wants("▸ ratio", "At 40 to 1 that is")
	for range 7 {
		d.press("enter")
	}
	d.wants("Fill the bath to the mark", "Ridge Top, station 2")
}

func TestSetUpKeepsWhatWasTyped(t *testing.T) {
	d := nothing(t, 100, 30)
	d.typ("Ridge Top")
	d.press("enter")
	d.typ("Noor")
	d.press("enter", "enter")
	d.typ("70 furlongs")
	for range 11 {
		d.press("enter")
	}
	d.wants("▸ tank holds    70 furlongs", "Set up this station", "Volume to the mark")
	if d.m.station != nil {
		t.Error("a station was made all the same")
	}
}

// TestOpenSheetFollowsTheBackground: the terminal may say that it is light
// after set-up has been drawn for a dark one.
func TestOpenSheetFollowsTheBackground(t *testing.T) {
	const darkAccent = "38;2;108;196;232"
	d := nothing(t, 100, 30)
	if !strings.Contains(d.m.View().Content, darkAccent) {
		t.Fatal("set-up does not start in the dark look: this test sees nothing")
	}
	d.send(tea.BackgroundColorMsg{Color: color.White})
	if strings.Contains(d.m.View().Content, darkAccent) {
		t.Error("set-up keeps the colours of a dark terminal on a light one")
	}
}

// TestCatchUpAsksTheTimeFirst: the time stands last in the form of a note, and
// enter on it goes on to what is still empty. It was a crash.
func TestCatchUpAsksTheTimeFirst(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("c", "n")
	d.typ("yesterday 07:05")
	d.press("enter")
	d.typ("packs drip")
	d.press("enter", "a")
	d.wants("What happened since", "07:05", "packs drip")
	d.press("enter")
	d.press("7")
	d.wants("packs drip")
}
