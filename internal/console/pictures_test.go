package console

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"bathside/internal/chart"
	"bathside/internal/demo"
	"bathside/internal/snap"
)

// looks are the four ways a terminal may show a screen.
var looks = []struct {
	name    string
	profile colorprofile.Profile
	dark    bool
}{
	{"dark", colorprofile.TrueColor, true},
	{"light", colorprofile.TrueColor, false},
	{"16", colorprofile.ANSI, true},
	{"none", colorprofile.ASCII, true},
}

// look dresses the desk's console.
func (d *desk) look(p colorprofile.Profile, dark bool, g chart.Glyphs) {
	d.m.profile, d.m.dark, d.m.o.Glyphs = p, dark, g
	d.m.setTheme()
}

// picture draws the screen as a terminal of that colour depth shows it.
func (d *desk) picture(p colorprofile.Profile, dark bool) []byte {
	d.Helper()
	var seen, svg bytes.Buffer
	w := colorprofile.Writer{Forward: &seen, Profile: p}
	if _, err := w.WriteString(d.m.View().Content); err != nil {
		d.Fatal(err)
	}
	th := snap.Dark
	if !dark {
		th = snap.Light
	}
	if err := snap.WriteSVG(&svg, seen.String(), d.m.l.w, d.m.l.h, th); err != nil {
		d.Fatal(err)
	}
	return svg.Bytes()
}

// TestPictures draws the screens at four sizes in four looks. To keep them:
//
//	SNAP=dir go test ./internal/console -run Pictures
func TestPictures(t *testing.T) {
	for _, size := range [][2]int{{100, 30}, {80, 24}, {60, 16}, {200, 60}} {
		for screen, s := range map[string]struct{ state, keys string }{
			"1-today": {"keep", "1"}, "2-readings": {"keep", "2"}, "2-meters": {"keep", "2v"}, "3-decide": {"top-up", "3"}, "4-wash": {"keep", "4+"},
			"5-gear": {"keep", "5"}, "6-guides": {"keep", "6"}, "7-log": {"keep", "7"}, "8-station": {"keep", "8"}, "form": {"keep", "p9"}, "palette": {"keep", ":"}, "figures": {"keep", "2i"},
		} {
			d := deciding(t, s.state, size[0], size[1])
			d.typ(s.keys)
			for _, l := range looks {
				d.look(l.profile, l.dark, chart.Braille)
				d.keep(fmt.Sprintf("%s-%dx%d-%s", screen, size[0], size[1], l.name), d.picture(l.profile, l.dark))
			}
		}
	}
}

// TestChartPictures draws what the chart of Readings may show; SNAP=dir keeps it.
func TestChartPictures(t *testing.T) {
	for _, size := range [][2]int{{100, 30}, {100, 40}, {60, 16}, {200, 60}} {
		for view, keys := range chartViews {
			d := refilled(t, size[0], size[1])
			d.press("2")
			d.press(keys...)
			for _, l := range looks {
				d.look(l.profile, l.dark, chart.Braille)
				d.keep(fmt.Sprintf("chart-%s-%dx%d-%s", view, size[0], size[1], l.name), d.picture(l.profile, l.dark))
			}
		}
	}
}

// keep checks a picture, and writes it where SNAP says.
func (d *desk) keep(name string, svg []byte) {
	d.Helper()
	if !bytes.Contains(svg, []byte("</svg>")) {
		d.Errorf("%s: no picture", name)
	}
	dir := os.Getenv("SNAP")
	if dir == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(dir, name+".svg"), svg, 0o644); err != nil {
		d.Fatal(err)
	}
}

// TestReadmePictures keeps the pictures in README those of the console as it
// is, on the demo station.
func TestReadmePictures(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	now := time.Date(2026, 6, 18, 9, 40, 0, 0, time.UTC)
	cat := testCatalog(t)
	if err := demo.Build(path, now, cat); err != nil {
		t.Fatal(err)
	}
	c := &clock{now}
	d := &desk{TB: t, clock: c, st: reopen(t, path, c.now)}
	d.m = New(Options{Station: d.st, Catalog: cat, Now: c.now, Demo: true, Profile: colorprofile.TrueColor, Context: unwatched()})
	d.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	d.run(d.m.load())
	for _, p := range []struct{ name, keys string }{{"today", "1"}, {"readings", "2"}, {"decide", "3"}, {"wash", "4++"}} {
		d.typ(p.keys)
		d.readmePicture(p.name, d.picture(colorprofile.TrueColor, true))
	}
	if err := d.st.Close(); err != nil {
		t.Fatal(err)
	}
}

func (d *desk) readmePicture(name string, got []byte) {
	d.Helper()
	path := "../../assets/demo/" + name + ".svg"
	if *rewrite {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			d.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		d.Fatal(err)
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		d.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		d.Errorf("%s is not what the console shows now: go test ./internal/console -rewrite", path)
	}
	if !bytes.Contains(readme, []byte("assets/demo/"+name+".svg")) {
		d.Errorf("README does not show %s", path)
	}
}
