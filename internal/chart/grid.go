package chart

type cell struct {
	char rune
	role Role
}

// grid is a rectangle of cells; a part of a grid shares the cells of the whole.
type grid struct {
	w, h, stride int
	cells        []cell
}

func newGrid(w, h int) grid {
	g := grid{w: w, h: h, stride: w, cells: make([]cell, w*h)}
	for i := range g.cells {
		g.cells[i].char = ' '
	}
	return g
}

// part returns the w by h cells from x, y on, which must lie inside g.
func (g grid) part(x, y, w, h int) grid {
	if w <= 0 || h <= 0 {
		return grid{}
	}
	return grid{w: w, h: h, stride: g.stride, cells: g.cells[y*g.stride+x:]}
}

func (g grid) has(x, y int) bool { return x >= 0 && x < g.w && y >= 0 && y < g.h }

func (g grid) at(x, y int) cell { return g.cells[y*g.stride+x] }

// put sets a cell; outside the grid it does nothing.
func (g grid) put(x, y int, char rune, role Role) {
	if g.has(x, y) {
		g.cells[y*g.stride+x] = cell{char, role}
	}
}

// write sets a text from x on, one cell a character.
func (g grid) write(x, y int, text []rune, role Role) {
	for i, r := range text {
		g.put(x+i, y, r, role)
	}
}

// rows joins neighbours of one role to spans.
func (g grid) rows() []Row {
	rows := make([]Row, g.h)
	text := make([]rune, 0, g.w)
	for y := range rows {
		line := g.cells[y*g.stride:][:g.w]
		for x := 0; x < len(line); {
			text = text[:0]
			role := line[x].role
			for ; x < len(line) && line[x].role == role; x++ {
				text = append(text, line[x].char)
			}
			rows[y] = append(rows[y], Span{string(text), role})
		}
	}
	return rows
}
