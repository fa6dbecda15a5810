package console

import (
	"strings"
	"testing"

	"bathside/internal/chart"
)

// Whatever somebody wants is typed in their own words, and enter does it.
func TestThePaletteDoesWhatIsTyped(t *testing.T) {
	for _, c := range []struct{ typed, marked, then string }{
		{"reading", "▸ p", "Record a pH reading"},
		{"who is on", "On duty: A shift, until", "The members of the platoon"},
		{"drain", "drain", "Drain"},
		{"foil", "Log", "foil"},
		{"mask card", "Card: Mask", "Card: Mask"},
		{"how warm", "Temperature: 120 °F", "As somebody measured it"},
		{"practise load", "Practise:", ""},
	} {
		t.Run(c.typed, func(t *testing.T) {
			d := sit(t, 100, 30, true)
			d.press(":")
			d.typ(c.typed)
			d.wants(c.marked)
			d.press("enter")
			if c.then != "" {
				d.wants(c.then)
			}
		})
	}
}

func TestThePaletteSaysWhatItDoesNotKnow(t *testing.T) {
	d := sit(t, 80, 24, true)
	d.press(":")
	d.typ("helicopter")
	d.wants(`Nothing is called "helicopter" here`)
	d.press("enter", "esc")
	d.wants("Take the weekly pH")
}

// What cannot be done now stays in the list, says why, and is not done.
func TestDisabledKeysSayWhy(t *testing.T) {
	d := sit(t, 100, 30, false) // no fill is open
	d.press("tab")
	d.wants("(p pH)")
	d.press("p")
	d.wants("Not now: the bath is empty: log the fill first")
	if d.m.top() != nil {
		t.Fatal("a form was opened all the same")
	}
	d.press("?")
	d.wants("pH: record a reading – not now: the bath is empty")
	d.press("/")
	d.typ("record a reading")
	d.press("enter", "enter")
	d.wants("Not now: the bath is empty")
}

func TestHelpRunsWhatIsMarked(t *testing.T) {
	d := sit(t, 80, 24, true)
	d.press("?", "/")
	d.typ("filter")
	d.press("enter", "enter")
	d.wants("▸Filter run")
}

// Every list is searched alike: what is typed is marked at once, esc goes back.
func TestFindMarksWhatIsTyped(t *testing.T) {
	for name, c := range map[string]struct {
		open []string
		typ  string
		want string
	}{
		"next":     {nil, "filter", "▸ today  Filter"},
		"cycle":    {[]string{"tab", "tab"}, "nozzle", "▸ Nozzle"},
		"readings": {[]string{"2"}, "first reading", "▸ Mon 2 Mar 12:20"},
		"log":      {[]string{"7"}, "degas", "▸    9"},
		"guides":   {[]string{"6"}, "drain", "▸"},
		"wash":     {[]string{"4"}, "nozzle", "▸ Nozzle"},
		"kinds":    {[]string{"e"}, "spill", "Log a spill"},
	} {
		t.Run(name, func(t *testing.T) {
			d := sit(t, 100, 30, true)
			d.press(c.open...)
			l, _ := listOf(d.m.screens[d.m.shown])
			was := l.at
			d.press("/")
			d.typ(c.typ)
			d.wants(c.want, "1 of ")
			d.press("esc")
			if l, _ := listOf(d.m.screens[d.m.shown]); l.at != was {
				t.Errorf("esc left the mark at %d, want %d", l.at, was)
			}
			d.press("/")
			d.typ("no such thing at all")
			d.wants("Nothing in the list fits")
		})
	}
}

// A line that the console does not hold is found in the log book itself.
func TestTheWholeLogBookIsSearched(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("7")
	d.m.log.lines = d.m.log.lines[15:] // as in a long log book
	d.press("/")
	d.typ("degas")
	d.wants("enter looks further")
	d.press("enter")
	d.wants(`1 line with "degas"`, "15 min")
	d.press("esc")
	d.lacks("lines with")
	d.press("end", "down")
	if first := d.m.log.lines[0].Seq; first != 1 {
		t.Errorf("the oldest line held is %d, want 1: older ones come as somebody comes to them", first)
	}
}

func TestCopySendsTheMarkedRow(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("7", "y")
	d.wants("Sent to the clipboard: 22 Mar 08:00")
	d.press("1", "tab", "y")
	d.wants("Nothing here is marked to be copied")
}

// Each figure says how it was reckoned, from which lines, and by whose word.
func TestFiguresSayWhereTheyComeFrom(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("2", "i")
	d.wants("Down from the first reading: 0.22 ± 0.06 of 0.50", "from       line 11,", "one standard deviation", "a budget of judgement")
	d.press("down", "down")
	d.wants("▸ Limit likely")
	d.golden("figures-100x30")
	d.press("esc", "4")
	d.press("right", "i")
	d.wants("Minutes of the load")
}

// The cursor stands on the marked row, for a screen reader.
func TestTheCursorIsOnTheMarkedRow(t *testing.T) {
	for _, g := range []chart.Glyphs{chart.Braille, chart.ASCII} {
		for _, press := range [][]string{nil, {"tab", "tab"}, {"2"}, {"4"}, {"5"}, {"6"}, {"7", "down"}, {"e", "down"}, {"?"}} {
			d := sit(t, 100, 30, true)
			d.look(0, true, g)
			d.press(press...)
			v := d.m.View()
			if v.Cursor == nil {
				t.Fatalf("%v: no cursor\n%s", press, d.screen())
			}
			row := []rune(strings.Split(d.screen(), "\n")[v.Cursor.Y])
			if !strings.ContainsAny(string(row[v.Cursor.X:min(len(row), v.Cursor.X+3)]), "▸>") {
				t.Errorf("%v: the cursor is at %d in %q", press, v.Cursor.X, string(row))
			}
		}
	}
}
