package console

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/journal"
	"bathside/internal/plain"
	"bathside/internal/units"
)

// evil holds what does harm in a terminal: it clears the screen, writes to the
// clipboard, rings, turns text around, climbs over other rows, and is long.
const evil = "\x1b[2J\x1b]52;c;aGk=\x07\u009b31m\u202eשלום\u2066👩\u200d🚒\r\n\x00\u200b e\u0301\u0302\u0303\u0304\u0305\u0306\u0307\u0308"

// hostile writes lines into the journal past the door, as an import may bring
// them, with harm in every text.
func hostile(t testing.TB, path string, at time.Time) {
	t.Helper()
	say := func(what string) string { return what + evil + strings.Repeat(" very"+what, 60) }
	mask := []bath.Load{{Item: "mask", Count: 2, Name: say("mask"), Limit: say("limit"), Source: say("source"), Paper: say("paper")}}
	bodies := []bath.Body{
		&bath.Member{Name: say("Zoe"), Role: bath.Officer, Initials: say("Z")},
		&bath.Member{Name: "\u202e\x1b\u200b", Role: bath.KeyHolder},
		&bath.Setting{Station: say("Mill Road")},
		&bath.Tank{Name: say("Bay"), Mark: say("rim"), Product: say("soap"), Container: say("jug"), Sewer: say("permit")},
		&bath.Calibration{Meter: say("M"), Check: &bath.Dip{Buffer: say("carbonate"), AtC: 22, PH: 10.02}},
		&bath.Reading{PH: 10.18, SampleC: units.Fahrenheit(121), Meter: say("M")},
		&bath.Gear{Tag: say("T"), Item: "mask", Model: say("full face"), Serial: say("S"), IssuedTo: say("rig")},
		&bath.GearHold{Tag: say("T"), Why: say("lens")},
		&bath.Inspect{Tags: bath.Tags{say("T")}, Findings: say("scratched"), Action: say("none"), Inspector: say("Zoe")},
		&bath.Procedure{Item: "mask", State: bath.PaperPending, Model: say("face"), Title: say("care"), Accepted: say("Zoe")},
		&bath.Basket{Name: say("deep"), Holds: mask},
		&bath.Intake{Else: "none", Incident: say("fire")},
		&bath.Wash{Items: mask, Soil: "normal", Time: units.Minutes(4), BathC: 40, Result: "again", Note: say("black"), Outside: []string{say("outside")}},
		&bath.Start{Items: mask, Soil: "normal", Time: units.Minutes(4), BathC: 40, Override: say("now"), Passed: []string{say("gate")}},
		&bath.Spill{VolumeL: 1, To: say("floor"), Note: say("wet")},
		&bath.Decision{Choice: bath.ChoiceKeep, Why: say("good"), Advice: say("keep"), Evidence: &bath.Evidence{Reasons: []string{say("why")}, Flips: []string{say("flip")}}},
		&bath.Handover{Note: say("packs")},
		&bath.Hold{Cause: "leak", Why: say("drips")},
		&bath.Practice{Guide: "filter", Witness: say("Zoe")},
	}
	j, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = j.Update(func(tx *journal.Tx) error {
		for i, body := range bodies {
			e := bath.Entry{Body: body}
			text, err := json.Marshal(body)
			if err != nil {
				return err
			}
			spec, _ := bath.SpecOf(e.Kind())
			line := journal.Entry{ID: fmt.Sprintf("hostile-%d", i), At: at.Add(time.Duration(i) * time.Second), Logged: at.Add(time.Duration(i) * time.Second), By: say("Zoe"), Kind: string(e.Kind()), Body: text}
			if spec.Scope != bath.OfStation || e.Kind() == "tank" {
				line.Bath = "main"
			}
			if _, err := tx.Append(line); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestHostileTextIsHarmlessEverywhere goes through all screens and sheets of a
// station whose every text means harm, in each kind of letters: every row has
// its width, and no control byte is in it but the colours.
func TestHostileTextIsHarmlessEverywhere(t *testing.T) {
	for name, look := range map[string]struct {
		glyphs chart.Glyphs
		has    plain.Letters
	}{"all letters": {chart.Braille, nil}, "page 437": {chart.Block, plain.PC}, "ASCII": {chart.ASCII, nil}} {
		t.Run(name, func(t *testing.T) {
			c := &clock{start}
			path := filepath.Join(t.TempDir(), "station.db")
			st := newStationAt(t, c, path)
			tended(t, c, st)
			hostile(t, path, c.t)
			c.t = c.t.Add(time.Minute)
			d := &desk{TB: t, clock: c, st: st}
			d.m = New(Options{Station: st, Catalog: st.Catalog(), Guides: testGuides(t), Now: c.now, Profile: colorprofile.TrueColor, Glyphs: look.glyphs, Letters: look.has, Context: unwatched()})
			t.Cleanup(func() { _ = d.m.close() })
			d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
			d.run(d.m.load())
			d.wants("DO NOT USE")
			sheets := [][]string{
				nil, {"tab"}, {"tab", "tab"}, {"i"}, {"?"}, {"e"}, {"c"}, {"2"}, {"2", "m"}, {"2", "x"}, {"3"}, {"3", "enter"}, {"4"}, {"4", "enter"}, {"5"}, {"5", "enter"}, {"5", "down", "enter"}, {"5", "/"},
				{"6"}, {"6", "enter", "enter"}, {"7"}, {"7", "enter"}, {"7", "x"}, {"7", "up", "up", "up"}, {"p", "9", "9", "5", "enter"},
			}
			for _, kk := range kindKeys {
				sheets = append(sheets, []string{kk.key.Keys()[0]})
			}
			for _, keys := range sheets {
				for _, k := range keys {
					d.press(k)
				}
				for _, size := range [][2]int{{100, 30}, {60, 16}, {40, 9}, {131, 41}} {
					d.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
					d.harmless(size[0], size[1])
					d.spelt(look.glyphs, look.has)
					d.soundBefore()
				}
				d.press("esc", "esc", "esc", "1")
			}
			d.press("7")
			d.wants("Zoe[2J", "very")
			d.press("1")
			d.send(tea.PasteMsg{Content: evil})
			d.press("p")
			d.send(tea.PasteMsg{Content: evil + strings.Repeat("x", 5000)})
			d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
			d.press("enter")
			d.harmless(100, 30)
		})
	}
}

// soundBefore holds that text is clean before it is measured: nothing is left
// for the last look to take out.
func (d *desk) soundBefore() {
	d.Helper()
	rows, _ := d.m.rows()
	for _, r := range rows {
		if !sound(r) {
			d.Fatalf("a row was drawn with %q", r)
		}
	}
}

// TestSound tells our colours from what does harm.
func TestSound(t *testing.T) {
	for row, want := range map[string]bool{
		"": true, "pH 9.82 ± 0.05 ─ ⣿ שלום é": true, "\x1b[1;38;2;1;2;3mred\x1b[m": true, "\x1b[mx": true,
		"\x1b[2J": false, "\x1b[31": false, "\x1b]0;m": false, "a\tb": false, "\u202ex": false, "\u009bm": false, "\x1b[?25m": false, "\x1b": false, "\x1b[31m\x07": false, "\xff": false,
	} {
		if got := sound(row); got != want {
			t.Errorf("%q: got %v", row, got)
		}
	}
}

// TestLettersKeepTheColumns: a stand-in that is longer or shorter than its sign
// moves nothing beyond the next gap, and a row keeps its width.
func TestLettersKeepTheColumns(t *testing.T) {
	plainLook := newTheme(colorprofile.ASCII, true, chart.ASCII, nil)
	for row, want := range map[string]string{
		"121 °F  set 122 °F   x": "121 F   set 122 F    x",
		"9.82 ± 0.05    next":    "9.82 +/- 0.05  next",
		"± ± ± ±":                "+/- +/-",
		"\x1b[1m…\x1b[m   Zoë":   "\x1b[1m...\x1b[m Zoe",
		"👩‍🚒 is on":              "?? is on ",
		"none made yet… 9.4 ┤":   "none made y... 9.4 +",
		"last 16 Mar; …  9.4 ┤":  "last 16 Mar...  9.4 +",
	} {
		w := ansi.StringWidth(row)
		got := plainLook.letters(row, w)
		if got != want && strings.TrimRight(got, " ") != strings.TrimRight(want, " ") || ansi.StringWidth(got) != w {
			t.Errorf("%q: got %q, want %q, %d cells wide", row, got, want, w)
		}
	}
}

// spelt holds the screen to the letters of its look.
func (d *desk) spelt(glyphs chart.Glyphs, has plain.Letters) {
	d.Helper()
	if glyphs == chart.ASCII {
		has = plain.ASCII
	}
	if has == nil {
		return
	}
	v := d.m.View()
	for _, r := range v.Content + v.WindowTitle {
		if !has(r) {
			d.Fatalf("the screen shows %q:\n%s", r, d.screen())
		}
	}
}
