package console

import (
	"fmt"
	"strings"
	"testing"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/chart"
)

// TestFits draws every screen under every sheet in every size: nothing
// overflows, and from 60x16 the strip stands whole.
func TestFits(t *testing.T) {
	views := map[string][]string{
		"today": nil, "trend": {"tab"}, "cycle": {"tab", "tab"}, "readings": {"2"}, "meters": {"2", "v"}, "check": {"2", "v", "a"}, "log": {"7"},
		"help": {"?"}, "explain": {"i"}, "kinds": {"e"}, "catch-up": {"c"}, "strike": {"7", "x"},
		"reading": {"p", "9", "9", "5", "enter", "1"}, "refused": {"p", "x", "enter"}, "sign": {"3", "enter"},
		"guides": {"6"}, "guide": {"6", "enter", "enter", "enter"}, "guide form": {"6", "enter", "enter", "enter", "enter"}, "card": {"6", "end", "enter"},
	}
	for _, kk := range kindKeys {
		views["form "+string(kk.kind)] = []string{kk.key.Keys()[0]}
	}
	for name, press := range views {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := sit(t, 100, 30, true)
			d.press(press...)
			d.sweep()
		})
	}
	for state := range decisions {
		t.Run("decide "+state, func(t *testing.T) {
			t.Parallel()
			d := deciding(t, state, 100, 30)
			d.press("3")
			d.sweep()
		})
	}
	t.Run("set-up", func(t *testing.T) {
		d := nothing(t, 100, 30)
		d.sweep()
	})
}

// sweep goes through the windows from 20x5 to 220x70, and through every one
// around the sizes where the layout changes.
func (d *desk) sweep() {
	d.Helper()
	near := func(n int, edges ...int) bool {
		for _, e := range edges {
			if n >= e-1 && n <= e+1 {
				return true
			}
		}
		return false
	}
	for w := 20; w <= 220; w++ {
		if w%9 != 2 && !near(w, smallW, mediumW, fullW, 220) {
			continue
		}
		for h := 5; h <= 70; h++ {
			if h%6 != 5 && !near(h, smallH, 20, 26, 70) {
				continue
			}
			d.send(tea.WindowSizeMsg{Width: w, Height: h})
			d.fits(w, h)
		}
	}
}

// fits holds for every screen of w by h.
func (d *desk) fits(w, h int) {
	d.Helper()
	v := d.m.View()
	lines := strings.Split(v.Content, "\n")
	if len(lines) != h {
		d.Fatalf("%dx%d: %d rows", w, h, len(lines))
	}
	for i, l := range lines {
		if n := ansi.StringWidth(l); n != w {
			d.Fatalf("%dx%d: row %d is %d cells wide: %q", w, h, i, n, ansi.Strip(l))
		}
	}
	if c := v.Cursor; c != nil && (c.X < 0 || c.X >= w || c.Y < 0 || c.Y >= h) {
		d.Fatalf("%dx%d: the cursor is at %d,%d, off the screen", w, h, c.X, c.Y)
	}
	if w < smallW || h < smallH {
		said := strings.Join(strings.Fields(d.screen()), " ")
		if tagged := d.m.x != nil && d.m.x.Bath.Tag != nil; !tagged && !strings.Contains(said, fmt.Sprintf("%d x %d", w, h)) {
			d.Fatalf("%dx%d: the sentence lacks the size:\n%s", w, h, d.screen())
		}
		return
	}
	if d.m.x != nil && d.m.x.Bath.Tag == nil && (!strings.Contains(ansi.Strip(lines[0]), advise.StateWord(d.m.x.PH.State)) || !strings.Contains(ansi.Strip(lines[1]), d.m.x.Now.Format("15:04"))) {
		d.Fatalf("%dx%d: the strip is folded:\n%s\n%s", w, h, ansi.Strip(lines[0]), ansi.Strip(lines[1]))
	}
}

// TestPlainLooksHaveNoForeignSigns holds that the plain look needs ASCII only,
// but for what the trade itself writes.
func TestPlainLooksHaveNoForeignSigns(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.look(0, true, chart.ASCII)
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	for _, k := range []string{"1", "2", "3", "5", "6", "7", "?"} {
		d.press(k)
		for _, r := range d.screen() {
			if r > 0x7e && !strings.ContainsRune("°±·×…–", r) {
				t.Errorf("screen %s shows %q", k, r)
			}
		}
	}
}
