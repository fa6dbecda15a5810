package snap

import (
	"fmt"
	"image/color"
	"strings"
)

// level is a glyph that is one stripe across its cell.
type level struct {
	y, h  float64
	shade string // more attributes
}

// levelGlyphs are the glyphs that are stripes: rules, and the blocks as wide as
// a cell. A shade is drawn as an even tint, not as the raster of a font.
var levelGlyphs = map[rune]level{
	'─': {10, 1, ""}, '━': {9, 3, ""},
	'▀': {0, 10, ""}, '▁': {17.5, 2.5, ""}, '▂': {15, 5, ""}, '▃': {12.5, 7.5, ""}, '▄': {10, 10, ""},
	'▅': {7.5, 12.5, ""}, '▆': {5, 15, ""}, '▇': {2.5, 17.5, ""}, '█': {0, 20, ""},
	'░': {0, 20, ` fill-opacity=".25"`}, '▒': {0, 20, ` fill-opacity=".5"`}, '▓': {0, 20, ` fill-opacity=".75"`},
}

// outlines are glyphs drawn as filled paths, in a cell of 9 by 20.
var outlines = map[rune]string{
	'▉': "h7.9v20h-7.9z", '▊': "h6.8v20h-6.8z", '▋': "h5.6v20h-5.6z", '▌': "h4.5v20h-4.5z",
	'▍': "h3.4v20h-3.4z", '▎': "h2.3v20h-2.3z", '▏': "h1.1v20h-1.1z", '▐': "m4.5 0h4.5v20h-4.5z",
	'┊': "m4 1h1v3h-1zm0 5h1v3h-1zm0 5h1v3h-1zm0 5h1v3h-1z",
	'┆': "m4 1h1v5h-1zm0 7h1v5h-1zm0 7h1v4h-1z",
	'●': "m.7 10.5a3.8 3.8 0 1 0 7.6 0a3.8 3.8 0 1 0-7.6 0z",
	'◉': "m2.7 10.5a1.8 1.8 0 1 0 3.6 0a1.8 1.8 0 1 0-3.6 0z",
	'▲': "m4.5 6 4.2 8.5h-8.4z",
	'▼': "m.3 6.5h8.4l-4.2 8.5z",
	'▸': "m1.8 6 5.7 4.5-5.7 4.5z",
	'◂': "m7.2 6-5.7 4.5 5.7 4.5z",
	'■': "m.9 7h7.2v7.2h-7.2z",
	'≡': "m1 7h7v1.4h-7zm0 3h7v1.4h-7zm0 3h7v1.4h-7z",
}

// strokes are glyphs drawn as lines, after what outlines has for them.
var strokes = map[rune]string{
	'○': "m1.2 10.5a3.3 3.3 0 1 0 6.6 0a3.3 3.3 0 1 0-6.6 0z",
	'◉': "m.8 10.5a3.7 3.7 0 1 0 7.4 0a3.7 3.7 0 1 0-7.4 0z",
	'▢': "m1.2 7.2h6.6v6.6h-6.6z",
	'✓': "m1 11 2.6 3.4 4.4-7.6",
	'✗': "m1.4 6.5 6.2 8m0-8-6.2 8",
	'╭': "m4.5 20v-5q0-4.5 4.5-4.5",
	'╮': "m0 10.5q4.5 0 4.5 4.5v5",
	'╰': "m4.5 0v6q0 4.5 4.5 4.5",
	'╯': "m0 10.5q4.5 0 4.5-4.5v-6",
}

// arms are the box-drawing glyphs: how thick their lines are to the left, the
// right, up and down.
var arms = map[rune][4]int{
	'│': {0, 0, 1, 1}, '┌': {0, 1, 0, 1}, '┐': {1, 0, 0, 1}, '└': {0, 1, 1, 0}, '┘': {1, 0, 1, 0},
	'├': {0, 1, 1, 1}, '┤': {1, 0, 1, 1}, '┬': {1, 1, 0, 1}, '┴': {1, 1, 1, 0}, '┼': {1, 1, 1, 1},
	'╴': {1, 0, 0, 0}, '╵': {0, 0, 1, 0}, '╶': {0, 1, 0, 0}, '╷': {0, 0, 0, 1},
	'┃': {0, 0, 3, 3}, '┏': {0, 3, 0, 3}, '┓': {3, 0, 0, 3}, '┗': {0, 3, 3, 0}, '┛': {3, 0, 3, 0},
	'┣': {0, 3, 3, 3}, '┫': {3, 0, 3, 3}, '┳': {3, 3, 0, 3}, '┻': {3, 3, 3, 0}, '╋': {3, 3, 3, 3},
}

// dots are the places in a cell of the eight braille dots, in the order of their
// bits in Unicode's braille block.
var dots = [8][2]float64{{2.2, 2.5}, {2.2, 7.5}, {2.2, 12.5}, {6.8, 2.5}, {6.8, 7.5}, {6.8, 12.5}, {2.2, 17.5}, {6.8, 17.5}}

// shape draws r if it is a glyph we draw ourselves.
func (p *picture) shape(r rune, x, y int, ink color.RGBA) bool {
	x, y = x*cellW, y*cellH
	if r >= 0x2800 && r <= 0x28ff {
		d := p.ink.layer(stroke(ink) + ` stroke-width="2.6" stroke-linecap="round"`)
		for i, at := range dots {
			if r&(1<<i) != 0 {
				fmt.Fprintf(d, "M%s %sh0", num(float64(x)+at[0]), num(float64(y)+at[1]))
			}
		}
		return true
	}
	if a, ok := arms[r]; ok {
		fmt.Fprintf(p.ink.layer(fill(ink)), "M%d %d%s", x, y, box(a))
		return true
	}
	outline, filled := outlines[r]
	if filled {
		fmt.Fprintf(p.ink.layer(fill(ink)), "M%d %d%s", x, y, outline)
	}
	line, drawn := strokes[r]
	if drawn {
		fmt.Fprintf(p.ink.layer(stroke(ink)+` stroke-width="1.2"`), "M%d %d%s", x, y, line)
	}
	return filled || drawn
}

// box draws arms as rectangles that meet in the middle of a cell.
func box(a [4]int) string {
	var d strings.Builder
	left, right, up, down := a[0], a[1], a[2], a[3]
	thick := max(left, right, up, down)
	mx, my := 4-thick/2, 10-thick/2 // the corner where the arms meet
	add := func(x, y, w, h int) { fmt.Fprintf(&d, "m%d %dh%dv%dh-%dzm%d %d", x, y, w, h, w, -x, -y) }
	switch {
	case left > 0 && right > 0:
		add(0, my, cellW, thick)
	case left > 0:
		add(0, my, mx+thick, thick)
	case right > 0:
		add(mx, my, cellW-mx, thick)
	}
	switch {
	case up > 0 && down > 0:
		add(mx, 0, thick, cellH)
	case up > 0:
		add(mx, 0, thick, my+thick)
	case down > 0:
		add(mx, my, thick, cellH-my)
	}
	return d.String()
}
