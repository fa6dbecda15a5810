package console

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"
	uv "github.com/charmbracelet/ultraviolet"

	"bathside/internal/bath"
	"bathside/internal/chart"
)

// FuzzKeys: whatever bytes come from the terminal, the console draws exactly
// its window after each key, shows nothing that harms it, and stores only what
// the door lets in.
func FuzzKeys(f *testing.F) {
	c := &clock{start}
	path := filepath.Join(f.TempDir(), "station.db")
	st := newStationAt(f, c, path)
	tended(f, c, st)
	now := c.t
	if err := st.Close(); err != nil {
		f.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	for _, keys := range []string{
		"p995\r121\ra", "2xrinse\ra", "w", "3\r", "4\r\r", "5/", "6\r\r\r\r", "7xx", "?\r", "e\r", "c\r", "hpacks drip\x1b[200~\x1b[2J\u202e👩\u200d🚒\x1b[201~\ra",
		"\t\t\x1b[A\x1b[B\x1b[C\x1b[D\x1b[H\x1b[F\x1b[5~\x1b[6~", "\x1d\x1d\x1d?\x1d\x1d", "\x1c\x1c\x1cp\x1c982\r\x1c", "q\x03\x03", "\x00\xff\xfe\x1b\x1b[\x1b]0;x\x07\x1b_x\x1b\\",
		"p" + strings.Repeat("9", 300) + "\r", "d1e309\r", "p-0\r", "pNaN\r", "mNew\r", "\x1b[200~" + strings.Repeat("👩\u200d🚒", 200) + "\x1b[201~", "cp995\r121\rtue 07:05\ra\r", "1\x1b[112;5u\x1b[99;9u",
	} {
		f.Add([]byte(keys))
	}
	f.Fuzz(func(t *testing.T, keys []byte) {
		c := &clock{now}
		d := deskOn(t, c, file)
		before, err := d.st.State()
		if err != nil {
			t.Fatal(err)
		}
		d.typed(keys)
		d.allowedIn(before)
	})
}

// deskOn opens a console on a copy of a station file.
func deskOn(t testing.TB, c *clock, file []byte) *desk {
	t.Helper()
	path := filepath.Join(t.TempDir(), "station.db")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	d := &desk{TB: t, clock: c, st: reopen(t, path, c.now)}
	t.Cleanup(func() {
		if err := d.m.close(); err != nil {
			t.Error(err)
		}
	})
	d.m = New(Options{Station: d.st, Catalog: d.st.Catalog(), Guides: testGuides(t), Now: c.now, Profile: colorprofile.TrueColor, Glyphs: chart.Braille, Context: unwatched()})
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	d.run(d.m.load())
	return d
}

// windows are those that the fuzzed console is dragged through.
var windows = [][2]int{{100, 30}, {60, 16}, {80, 24}, {20, 5}, {1, 1}, {220, 70}, {79, 19}}

// typed gives the console bytes as a terminal sends them, and looks at it after
// each. ctrl+\ stands for a minute that passes, ctrl+] for another window.
func (d *desk) typed(keys []byte) {
	d.Helper()
	var decoder uv.EventDecoder
	w, h, size := 100, 30, 0
	for n := 0; len(keys) > 0 && n < 60; n++ {
		if paste, rest, ok := strings.Cut(strings.TrimPrefix(string(keys), "\x1b[200~"), "\x1b[201~"); ok && strings.HasPrefix(string(keys), "\x1b[200~") {
			keys = []byte(rest)
			d.send(tea.PasteMsg{Content: paste})
			d.harmless(w, h)
			continue
		}
		used, event := decoder.Decode(keys)
		switch {
		case keys[0] == 0x1c:
			d.clock.t = d.clock.t.Add(61 * time.Second)
			d.send(clockMsg(d.clock.t))
		case keys[0] == 0x1d:
			size = (size + 1) % len(windows)
			w, h = windows[size][0], windows[size][1]
			d.send(tea.WindowSizeMsg{Width: w, Height: h})
		default:
			if press, ok := event.(uv.KeyPressEvent); ok {
				d.send(tea.KeyPressMsg(press))
			}
		}
		keys = keys[max(1, used):]
		d.harmless(w, h)
	}
}

// harmless holds for every screen of w by h, whatever was typed.
func (d *desk) harmless(w, h int) {
	d.Helper()
	for _, l := range d.shaped(w, h) {
		d.onlyStyled(l)
	}
	d.onlyStyled(d.m.View().WindowTitle)
}

// sgr is what sets the look of what follows, and nothing else.
var sgr = regexp.MustCompile("\x1b\\[[0-9;:]*m")

// onlyStyled holds that a row has no control byte but those of its colours.
func (d *desk) onlyStyled(row string) {
	d.Helper()
	for _, r := range strings.ReplaceAll(sgr.ReplaceAllString(row, ""), "\u200e", "") { // the mark that ends right-to-left text
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			d.Fatalf("the screen holds %U: %q", r, row)
		}
	}
}

// allowedIn checks each line that was stored since against the door.
func (d *desk) allowedIn(state *bath.State) {
	d.Helper()
	after, err := d.st.State()
	if err != nil {
		d.Fatal(err)
	}
	lines, err := d.st.Lines(0, int(after.Seq-state.Seq))
	if err != nil {
		d.Fatal(err)
	}
	for _, e := range lines {
		if _, strike := e.Body.(*bath.Strike); strike || e.Kind() == "pin" {
			return // the first needs the lines before it, the other is the station's own
		}
		if err := bath.Check(state, e, e.Logged); err != nil {
			d.Fatalf("line %d is stored, and the door refuses it: %v", e.Seq, err)
		}
		if state, err = state.Apply(e); err != nil {
			d.Fatal(err)
		}
	}
}
