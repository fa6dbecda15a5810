package console

import (
	"fmt"
	"hash/fnv"
	"slices"
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
		"today": nil, "trend": {"tab"}, "cycle": {"tab", "tab"}, "readings": {"2"}, "meters": {"2", "v"}, "check": {"2", "v", "a"}, "log": {"7"}, "station": {"8"}, "handover": {"7", "v"},
		"palette": {":"}, "palette typed": {":", "d", "r", "a"}, "find": {"7", "/", "p"}, "messages": {"u", "m"}, "figures": {"2", "i", "down", "down"},
		"undo": {"w", "2", "enter", "a", "u"}, "help": {"?"}, "explain": {"i"}, "kinds": {"e"}, "catch-up": {"c"}, "strike": {"7", "x"},
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
	for view, keys := range chartViews {
		t.Run("chart "+view, func(t *testing.T) {
			t.Parallel()
			d := refilled(t, 100, 30)
			d.press("2")
			d.press(keys...)
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

// sweep goes through the windows where the layout changes, by one either way,
// and through others between 20x5 and 220x70, in every colour depth, on dark
// and light, with every kind of sign. Which others hangs on the test, so that
// together they go through nearly all.
func (d *desk) sweep() {
	d.Helper()
	h := fnv.New32a()
	_, _ = h.Write([]byte(d.Name())) // a hash takes everything
	own := int(h.Sum32())
	for w := 20; w <= 220; w++ {
		if (w+own)%41 != 0 && !atEdge(w, 21, smallW, mediumW, fullW, 219) {
			continue
		}
		for h := 5; h <= 70; h++ {
			if (h+own/41)%17 != 0 && !atEdge(h, 6, smallH, 20, 26, 69) {
				continue
			}
			look := looks[(w+h)%len(looks)]
			d.look(look.profile, look.dark, []chart.Glyphs{chart.Braille, chart.Block, chart.ASCII}[(w+2*h)%3])
			d.send(tea.WindowSizeMsg{Width: w, Height: h})
			d.fits(w, h)
		}
	}
}

// atEdge reports whether n is an edge or just before one.
func atEdge(n int, edges ...int) bool {
	return slices.Contains(edges, n) || slices.Contains(edges, n+1)
}

// shaped holds that a screen of w by h is full to the last cell and has its
// cursor inside, and gives its rows.
func (d *desk) shaped(w, h int) []string {
	d.Helper()
	v := d.m.View()
	lines := strings.Split(v.Content, "\n")
	if len(lines) != h {
		d.Fatalf("%dx%d: %d rows", w, h, len(lines))
	}
	for i, l := range lines {
		if n := ansi.StringWidth(l); n != w {
			d.Fatalf("%dx%d: row %d is %d cells wide: %q", w, h, i, n, l)
		}
	}
	if c := v.Cursor; c != nil && (c.X < 0 || c.X >= w || c.Y < 0 || c.Y >= h) {
		d.Fatalf("%dx%d: the cursor is at %d,%d, off the screen", w, h, c.X, c.Y)
	}
	return lines
}

// fits holds for every screen of w by h.
func (d *desk) fits(w, h int) {
	d.Helper()
	lines := d.shaped(w, h)
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

// TestPlainLooksHaveNoForeignSigns holds that the plain look needs ASCII only.
func TestPlainLooksHaveNoForeignSigns(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.look(0, true, chart.ASCII)
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	for _, k := range []string{"1", "2", "3", "5", "6", "7", "8", "?"} {
		d.press(k)
		for _, r := range d.screen() {
			if r > 0x7e {
				t.Errorf("screen %s shows %q", k, r)
			}
		}
	}
}
