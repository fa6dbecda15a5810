package chart

import (
	"encoding/binary"
	"math"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
)

// FuzzDraw: whatever the numbers, the labels and the window, a chart has its
// rows and columns, and nothing in it moves a cursor.
func FuzzDraw(f *testing.F) {
	numbers := func(xs ...float64) (b []byte) {
		for _, x := range xs {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
		return b
	}
	f.Add(numbers(0, 9, 0, 3, 1, 2, 3, 4, 5, 6), "pH", 40, 12, byte(0))
	f.Add(numbers(math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 1e308, -1e308, 5e-324, 1e100), "\x1b[2J\u202e\x00", 7, 3, byte(1))
	f.Add(numbers(1e99, 1e99, -1e99, 1e-300), "👩\u200d🚒 שלום e\u0301\u0301", 200, 60, byte(2))
	f.Add(numbers(1.7e9, 1.8e9, 9, 11, 1.75e9, 10), "\xff\xfe", 1, 1, byte(7))
	f.Fuzz(func(t *testing.T, data []byte, label string, w, h int, look byte) {
		w, h = w%240, h%70
		p := plotOf(data, label, look)
		rows := p.Draw(w, h)
		if len(rows) != max(h, 0) {
			t.Fatalf("%d rows, want %d", len(rows), h)
		}
		for _, r := range rows {
			s := r.String()
			if n := ansi.StringWidth(s); n != max(w, 0) {
				t.Fatalf("a row of %d cells, want %d: %q", n, w, s)
			}
			for _, c := range s {
				if c < ' ' || c >= 0x7f && c < 0xa0 || c >= 0x202a && c <= 0x202e || c >= 0x2066 && c <= 0x2069 {
					t.Fatalf("a row holds %U", c)
				}
			}
		}
	})
}

// plotOf is a plot made of the numbers in data, in turn for whatever it has.
func plotOf(data []byte, label string, look byte) Plot {
	var xs []float64
	for ; len(data) >= 8 && len(xs) < 120; data = data[8:] {
		xs = append(xs, math.Float64frombits(binary.LittleEndian.Uint64(data)))
	}
	p := Plot{Glyphs: Glyphs(look%4) - 1}
	if look&4 != 0 {
		p.XTicks = Calendar(time.UTC)
	}
	if len(xs) > 4 && look&8 == 0 {
		p.X0, p.X1, p.Y0, p.Y1 = xs[0], xs[1], xs[2], xs[3]
	}
	for i := 0; i+2 < len(xs); i++ {
		a, b, c := xs[i], xs[i+1], xs[i+2]
		switch i % 5 {
		case 0:
			p.Points = append(p.Points, Point{X: a, Y: b, Err: c, Mark: Mark(i % 9), Label: label})
		case 1:
			p.Lines = append(p.Lines, Line{Y: a, Label: label, Limit: i%2 == 0})
		case 2:
			p.Events = append(p.Events, Event{X: a, Mark: Mark(i), Label: label})
		case 3:
			p.Bands = append(p.Bands, Band{X: xs[:i], Lo: xs[1:i], Hi: xs[2:]})
		default:
			p.Paths = append(p.Paths, Path{X: xs[i:], Y: xs[:i]})
		}
	}
	return p
}
