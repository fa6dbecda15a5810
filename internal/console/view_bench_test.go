package console

import (
	"testing"

	tea "charm.land/bubbletea/v2"
)

// BenchmarkView draws Today after a change of the snapshot, at two sizes, with
// and without a form over it.
func BenchmarkView(b *testing.B) {
	for _, c := range []struct {
		name string
		w, h int
		keys []string
	}{{"80x24", 80, 24, nil}, {"200x60", 200, 60, nil}, {"200x60-form", 200, 60, []string{"p"}}} {
		b.Run(c.name, func(b *testing.B) {
			d := sit(b, c.w, c.h, true)
			d.send(tea.WindowSizeMsg{Width: c.w, Height: c.h})
			d.press(c.keys...)
			b.ReportAllocs()
			for b.Loop() {
				d.m.today.trend.drawn = nil // as after a new reading
				d.m.View()
			}
		})
	}
}
