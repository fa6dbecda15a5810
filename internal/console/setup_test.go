package console

import (
	"strings"
	"testing"
)

// Each thing that set-up asks has its why, and what holds where it is left
// empty; all of it can be read in the smallest window.
func TestSetUpSaysWhyItAsks(t *testing.T) {
	d := nothing(t, 60, 16)
	s := d.m.sheets[0].(*setup)
	s.fields.row("tank").set("100gal")
	for i, r := range s.fields.rows {
		s.fields.focus(i)
		why := s.note()
		if why == "" {
			t.Errorf("%s is asked without a why", r.name)
		}
		if n := len(wrap(why, 57)); n > 3 {
			t.Errorf("%s: the why is %d lines long at 60 columns, 3 fit", r.name, n)
		}
		if r.optional && len(r.words) == 0 && r.name != rowAgain && !strings.Contains(why, "If left empty") {
			t.Errorf("%s may be left empty, and the why does not say what holds then: %s", r.name, why)
		}
		if !r.optional && !strings.Contains(why, "must be given") {
			t.Errorf("%s must be given, and the why does not say so: %s", r.name, why)
		}
		d.wants("▸ "+r.label, strings.TrimSpace(wrap(why, 57)[0]))
	}
}

// What is wrong is said at its own row, before the next one is asked.
func TestSetUpSaysAtOnceWhatIsWrong(t *testing.T) {
	d := nothing(t, 80, 24)
	d.press("enter")
	d.wants("▸ station", "What is the station called?")
	d.typ("Ridge Top")
	d.press("enter", "enter")
	d.wants("▸ gear officer", "Who is the gear officer?")
	d.typ("Noor Haddad")
	d.press("enter", "enter", "enter")
	d.wants("▸ tank holds", "How much does the tank hold to the mark?")
	d.typ("70")
	d.press("enter", "enter")
	d.typ("6 horses")
	d.press("enter")
	d.wants("▸ heater", "6 horses")
	s := d.m.sheets[0].(*setup)
	s.fields.row("heater").set("")
	s.fields.focusOn("shift")
	d.typ("24/48@7")
	d.press("enter")
	d.wants("▸ shifts", "24/48@7", "write 00:00 to")
}

func TestSetUpGoldens(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
	}{{"set-up-100x30", 100, 30}, {"set-up-80x24", 80, 24}, {"set-up-60x16", 60, 16}} {
		t.Run(c.name, func(t *testing.T) {
			d := nothing(t, c.w, c.h)
			d.typ("Ridge Top")
			d.press("enter")
			d.typ("Noor Haddad")
			d.press("enter", "enter")
			d.typ("70gal")
			for range 8 {
				d.press("enter")
			}
			d.golden(c.name)
		})
	}
}
