package console

import (
	"fmt"
	"slices"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
)

// BenchmarkView draws every screen at three sizes after a change of the
// snapshot, which drops what screens keep drawn, and with a form over Today.
func BenchmarkView(b *testing.B) {
	for _, size := range [][2]int{{80, 24}, {100, 30}, {200, 60}} {
		d := sit(b, size[0], size[1], true)
		d.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		for _, press := range slices.Concat(screenKeys(), []string{"p"}) {
			b.Run(fmt.Sprintf("%dx%d/%s", size[0], size[1], press), func(b *testing.B) {
				d.press(press)
				b.ReportAllocs()
				for b.Loop() {
					d.m.screens[d.m.shown].setSnapshot(d.m.x) // as after a new reading
					d.m.View()
				}
			})
		}
	}
}

// screenKeys are the digits of the screens.
func screenKeys() (all []string) {
	for _, b := range screenBindings {
		all = append(all, b.Keys()[0])
	}
	return all
}

// BenchmarkViewReadings draws Readings with everything on it: after a new reading,
// when all is reckoned anew, and after a step of the cursor. It prints how many
// times as long as Today's small chart either takes.
func BenchmarkViewReadings(b *testing.B) {
	for name, change := range map[string]func(*seriesChart){
		"reading": func(c *seriesChart) { c.whole, c.drawn = nil, nil },
		"cursor":  func(c *seriesChart) { c.drawn = nil },
	} {
		b.Run("200x60-"+name, func(b *testing.B) {
			d := refilled(b, 200, 60)
			d.press("2", "o")
			b.ReportAllocs()
			for b.Loop() {
				change(d.readingsChart())
				d.m.View()
			}
			drawn := b.Elapsed()
			d.press("1")
			begun := time.Now()
			for range b.N {
				d.m.today.trend.drawn = nil
				d.m.View()
			}
			b.ReportMetric(float64(drawn)/float64(time.Since(begun)), "x-today")
		})
	}
}
