package console

import (
	"fmt"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/chart"
	"bathside/internal/station"
	"bathside/internal/units"
)

// washDay opens the console on its Wash screen, with the station's baskets on
// file: one measured, one counted only.
func washDay(t testing.TB, w, h int, more ...bath.Body) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	all := append([]bath.Body{
		&bath.Tank{FreeboardM: units.Inches(3), SurfaceM2: 0.45},
		&bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "helmet", Count: 2}},
			LengthM: units.Inches(26), WidthM: units.Inches(18), HeightM: units.Inches(12)},
		&bath.Basket{Name: "tray", Make: bath.BasketShallow, Count: new(2), AtOnce: new(2), Holds: []bath.Load{{Item: "mask", Count: 6}}},
	}, more...)
	for _, b := range all {
		draft := station.Draft{By: "Noor", Body: b}
		if _, ok := b.(*bath.Tank); ok {
			draft.Bath = "main"
		}
		if _, err := d.st.Record(draft); err != nil {
			t.Fatal(err)
		}
	}
	d.run(d.m.load())
	d.press("4")
	return d
}

// allowed is what a load of helmets and tools wants on file.
func allowed() []bath.Body {
	return []bath.Body{
		&bath.Temp{BathC: units.Fahrenheit(121)},
		&bath.Intake{Else: bath.ElseNone},
		&bath.Procedure{Item: "helmet", State: bath.PaperOnFile, Title: "shell care, rev 2", MaxC: new(units.Fahrenheit(126))},
	}
}

// count puts so many of the nth item type of the catalog into the load.
func (d *desk) count(nth, n int) {
	d.press("home")
	for range nth {
		d.press("down")
	}
	for range n {
		d.press("right")
	}
}

// The item types of the catalog by their place.
const (
	nthMask, nthHelmet, nthPack = 0, 1, 3
	nthTool                     = 5
)

func tickAll(d *desk) {
	d.press("tab", "tab")
	for range 12 {
		d.press("space")
	}
}

// washStates are the Wash screen in the states that matter.
var washStates = map[string]func(t testing.TB, w, h int) *desk{
	"empty":   func(t testing.TB, w, h int) *desk { return washDay(t, w, h) },
	"refused": washRefused, "ready": washReady, "running": washRunning, "time-up": washOver, "plan": washPlanned,
}

func washRefused(t testing.TB, w, h int) *desk {
	d := washDay(t, w, h, &bath.Temp{BathC: units.Fahrenheit(121)})
	d.count(nthMask, 4)
	d.count(nthHelmet, 2)
	return d
}

func washReady(t testing.TB, w, h int) *desk {
	d := washDay(t, w, h, allowed()...)
	d.count(nthHelmet, 2)
	tickAll(d)
	return d
}

func washRunning(t testing.TB, w, h int) *desk {
	d := washReady(t, w, h)
	d.press("s", "a")
	d.clock.t = d.clock.t.Add(79 * time.Second)
	d.send(clockMsg(d.clock.t))
	return d
}

func washOver(t testing.TB, w, h int) *desk {
	d := washRunning(t, w, h)
	d.clock.t = d.clock.t.Add(5 * time.Minute)
	d.send(clockMsg(d.clock.t))
	return d
}

func washPlanned(t testing.TB, w, h int) *desk {
	mask := &bath.Procedure{Item: "mask", State: bath.PaperOnFile, Title: "mask care, rev 7", MaxC: new(units.Fahrenheit(124))}
	d := washDay(t, w, h, append(allowed(), mask)...)
	d.count(nthMask, 14)
	d.count(nthHelmet, 3)
	d.count(nthTool, 2)
	d.press("v")
	return d
}

func TestWashGoldens(t *testing.T) {
	for state, open := range washStates {
		for _, size := range [][2]int{{100, 30}, {80, 24}, {60, 16}} {
			t.Run(fmt.Sprintf("%s-%dx%d", state, size[0], size[1]), func(t *testing.T) {
				t.Parallel()
				open(t, size[0], size[1]).golden(fmt.Sprintf("wash-%s-%dx%d", state, size[0], size[1]))
			})
		}
	}
}

// TestWashFits goes through the windows in every state, and in those with most
// to show through every part.
func TestWashFits(t *testing.T) {
	for state, open := range washStates {
		parts := map[string]int{"refused": 4, "plan": 2}[state]
		for tabs := range max(1, parts) {
			t.Run(fmt.Sprintf("%s %d", state, tabs), func(t *testing.T) {
				t.Parallel()
				d := open(t, 100, 30)
				for range tabs {
					d.press("tab")
				}
				d.sweep()
			})
		}
	}
}

func TestWashPictures(t *testing.T) {
	for state, open := range washStates {
		d := open(t, 100, 30)
		for _, size := range [][2]int{{100, 30}, {60, 16}} {
			d.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
			for _, l := range looks {
				d.look(l.profile, l.dark, chart.Braille)
				d.keep(fmt.Sprintf("wash-%s-%dx%d-%s", state, size[0], size[1], l.name), d.picture(l.profile, l.dark))
			}
		}
	}
}

func TestWashInPlainSigns(t *testing.T) {
	for state, open := range washStates {
		d := open(t, 100, 30)
		d.look(0, true, chart.ASCII)
		d.press("home")
		for _, r := range d.screen() {
			if r > 0x7e && !strings.ContainsRune("°±·×…–", r) {
				t.Errorf("%s shows %q:\n%s", state, r, d.screen())
				break
			}
		}
	}
}
