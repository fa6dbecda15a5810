package console

import (
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/load"
	"bathside/internal/units"
)

// floorPlan draws a basket and what lies in it from above, to scale, in w by h
// cells at the most: a cell is taken as twice as high as wide. It is nil where
// that is too little to tell anything.
func (t *theme) floorPlan(b load.Basket, spots []load.Spot, names []string, w, h int) []string {
	if w < 8 || h < 3 || b.Length <= 0 || b.Width <= 0 {
		return nil
	}
	col := max(float64(b.Length)/float64(w-1), float64(b.Width)/float64(2*(h-1))) // metres
	d := newDrawing(cells(b.Length, col), cells(b.Width, 2*col))
	if d == nil {
		return nil
	}
	d.box(0, 0, d.w-1, d.h-1)
	for _, s := range spots {
		x, y := cells(s.X, col), cells(s.Y, 2*col)
		right, low := cells(s.X+s.Length, col), cells(s.Y+s.Width, 2*col)
		d.box(x, y, right, low)
		d.name(names[s.Of], x, y, right, low)
	}
	return d.rows(t)
}

func cells(l units.Length, per float64) int { return int(math.Round(float64(l) / per)) }

// drawing is lines and names on a grid of cells. A cell of a line knows where
// it goes on to, so that boxes that touch share their lines.
type drawing struct {
	w, h  int
	lines [][]uint8
	names [][]string // each in the cell that it begins in
}

// Where a line goes on to, in bits.
const (
	lineUp = 1 << iota
	lineRight
	lineDown
	lineLeft
)

// lineRunes is a cell of a line by its bits.
var lineRunes = []rune(" ╵╶└╷│┌├╴┘─┴┐┤┬┼")

// newDrawing makes a grid with cells for lines at 0 to cols and 0 to rows.
func newDrawing(cols, rows int) *drawing {
	if cols < 4 || rows < 2 {
		return nil
	}
	d := &drawing{w: cols + 1, h: rows + 1}
	for range d.h {
		d.lines = append(d.lines, make([]uint8, d.w))
		d.names = append(d.names, make([]string, d.w))
	}
	return d
}

// box draws the four sides between two corners, inside the grid.
func (d *drawing) box(x0, y0, x1, y1 int) {
	x1, y1 = min(x1, d.w-1), min(y1, d.h-1)
	for x := x0; x < x1; x++ {
		for _, y := range []int{y0, y1} {
			d.lines[y][x] |= lineRight
			d.lines[y][x+1] |= lineLeft
		}
	}
	for y := y0; y < y1; y++ {
		for _, x := range []int{x0, x1} {
			d.lines[y][x] |= lineDown
			d.lines[y+1][x] |= lineUp
		}
	}
}

// name writes a name into the middle of a box, or as many of its words as go
// in.
func (d *drawing) name(name string, x0, y0, x1, y1 int) {
	x1, y1 = min(x1, d.w-1), min(y1, d.h-1)
	room, y := x1-x0-1, (y0+y1)/2
	if room < 1 || y1-y0 < 2 {
		return
	}
	for strings.Contains(name, " ") && ansi.StringWidth(name) > room {
		name = name[:strings.LastIndex(name, " ")]
	}
	name = ansi.Truncate(name, room, "")
	d.names[y][x0+1+(room-ansi.StringWidth(name))/2] = name
}

func (d *drawing) rows(t *theme) []string {
	out := make([]string, d.h)
	for y := range d.h {
		var b, line strings.Builder
		for x := 0; x < d.w; x++ {
			if name := d.names[y][x]; name != "" {
				b.WriteString(t.muted.Render(line.String()) + name)
				line.Reset()
				x += ansi.StringWidth(name) - 1
				continue
			}
			line.WriteRune(t.lineRune(d.lines[y][x]))
		}
		out[y] = b.String() + t.muted.Render(line.String())
	}
	return out
}

// lineRune is a cell of a line in the look.
func (t *theme) lineRune(bits uint8) rune {
	switch {
	case !t.ascii || bits == 0:
		return lineRunes[bits]
	case bits == lineUp|lineDown:
		return '|'
	case bits == lineLeft|lineRight:
		return '-'
	}
	return '+'
}
