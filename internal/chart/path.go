package chart

import "math"

// raster is a canvas of dots finer than cells: each cell holds a small grid.
type raster struct {
	w, h   int // in dots
	sx, sy int // dots in a cell
	cells  []uint8
	dash   int // so many dots, and as many left out; 0: none is
	gone   int // dots of the dashed curve so far
}

// dots returns how many dots across and down a cell of this set has.
func (g Glyphs) dots() (sx, sy int) {
	switch g {
	case Braille:
		return 2, 4
	case Block:
		return 1, 2
	default:
		return 1, 3
	}
}

// brailleBits gives each dot its bit in the braille block: dots 1 2 3 7 down
// the left, 4 5 6 8 down the right (Unicode 15, chart U+2800).
var brailleBits = [8]rune{0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80}

// char returns the character for the dots of one cell, counted across and then
// down from the lowest bit; bits is not 0.
func (g Glyphs) char(bits uint8) rune {
	switch g {
	case Braille:
		r := rune(0x2800)
		for i, b := range brailleBits {
			if bits&(1<<i) != 0 {
				r |= b
			}
		}
		return r
	case Block:
		return [4]rune{1: '▀', 2: '▄', 3: '█'}[bits&3]
	default:
		return [8]rune{1: '\'', 2: '-', 3: '|', 4: '_', 5: '|', 6: '|', 7: '|'}[bits&7]
	}
}

// paths draws the curves in dots and then sets the cells that have any: the thin
// ones first, so that they lie behind.
func (c canvas) paths(paths []Path, g Glyphs) {
	c.curves(paths, g, true, RoleThin)
	for _, p := range paths {
		for i := range min(len(p.X), len(p.Y)) {
			if x, y, ok := c.place(Point{X: p.X[i], Y: p.Y[i]}); ok && p.Thin {
				c.put(x, y, c.set.mark(Other), RoleThin)
			}
		}
	}
	c.curves(paths, g, false, RolePath)
}

func (c canvas) curves(paths []Path, g Glyphs, thin bool, role Role) {
	sx, sy := g.dots()
	r := raster{w: c.w * sx, h: c.h * sy, sx: sx, sy: sy}
	for _, p := range paths {
		if p.Thin != thin {
			continue
		}
		if r.cells == nil {
			r.cells = make([]uint8, c.w*c.h)
		}
		r.path(p, c.x, c.y)
	}
	for i, bits := range r.cells {
		if bits != 0 {
			c.put(i%c.w, i/c.w, g.char(bits), role)
		}
	}
}

func (r *raster) path(p Path, x, y scale) {
	r.dash = 0
	if p.Thin {
		r.dash = 2 * r.sx
	}
	r.gone = 0
	joined := false
	var px, py float64
	for i := range min(len(p.X), len(p.Y)) {
		if !usable(p.X[i]) || !usable(p.Y[i]) {
			joined = false
			continue
		}
		// The middle of a cell is half a cell from the edge of the canvas.
		qx := (x.at(p.X[i]) + 0.5) * float64(r.sx)
		qy := (y.at(p.Y[i]) + 0.5) * float64(r.sy)
		if joined {
			r.line(px, py, qx, qy)
		} else {
			r.line(qx, qy, qx, qy)
		}
		px, py, joined = qx, qy, true
	}
}

// line sets the dots from one point to another, as far as they are inside.
func (r *raster) line(x0, y0, x1, y1 float64) {
	from, to, ok := r.clip(x0, y0, x1, y1)
	if !ok {
		return
	}
	dx, dy := x1-x0, y1-y0
	steps := math.Ceil(max(math.Abs(dx), math.Abs(dy)) * (to - from))
	for i := 0.0; i <= steps; i++ {
		t := from
		if steps > 0 {
			t += (to - from) * i / steps
		}
		if r.dash == 0 || r.gone/r.dash%2 == 0 {
			r.set(x0+dx*t, y0+dy*t)
		}
		r.gone++
	}
}

// clip returns the part of a line inside the canvas, as fractions of its
// length (the method of Liang and Barsky, 1984).
func (r raster) clip(x0, y0, x1, y1 float64) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, edge := range [4][2]float64{ // speed outward, room
		{x0 - x1, x0}, {x1 - x0, float64(r.w) - x0},
		{y0 - y1, y0}, {y1 - y0, float64(r.h) - y0},
	} {
		speed, room := edge[0], edge[1]
		switch {
		case speed == 0 && room < 0:
			return 0, 0, false
		case speed < 0:
			from = max(from, room/speed)
		case speed > 0:
			to = min(to, room/speed)
		}
	}
	return from, to, from <= to
}

// set lights the dot that x, y falls in; the far edges belong to the last dots.
func (r raster) set(x, y float64) {
	if !(x >= 0 && x <= float64(r.w) && y >= 0 && y <= float64(r.h)) {
		return
	}
	col, row := min(int(x), r.w-1), min(int(y), r.h-1)
	if col < 0 || row < 0 {
		return
	}
	bit := row%r.sy*r.sx + col%r.sx
	r.cells[row/r.sy*(r.w/r.sx)+col/r.sx] |= 1 << bit
}
