package chart

// A label must never be misread: it stands whole, with a blank at either side,
// where it covers no value, or it is left out.

// room reports whether n cells from x on, and one more at either side, show
// nothing above role; a place at the edge needs nothing beyond it.
func (c canvas) room(x, y, n int, above Role) bool {
	if y < 0 || y >= c.h || x < 0 || x+n > c.w {
		return false
	}
	for i := max(x-1, 0); i < min(x+n+1, c.w); i++ {
		if c.at(i, y).role > above {
			return false
		}
	}
	return true
}

// label writes a text with a blank at either side. Blanks replace no value, nor
// the mark a label belongs to.
func (c canvas) label(x, y int, text []rune) {
	c.write(x, y, text, RoleLabel)
	for _, side := range []int{x - 1, x + len(text)} {
		if c.has(side, y) && c.at(side, y).role < RoleEvent {
			c.put(side, y, ' ', RoleBlank)
		}
	}
}

// pointLabels sets the label of each point beside it. The last points come first:
// they matter most.
func (c canvas) pointLabels(points []Point) {
	for i := len(points) - 1; i >= 0; i-- {
		text := runes(points[i].Label)
		x, y, ok := c.place(points[i])
		if !ok || len(text) == 0 {
			continue
		}
		c.labelBeside(x, y, text)
	}
}

// labelBeside sets a text to the right of a cell, or else above, below or to the
// left of it.
func (c canvas) labelBeside(x, y int, text []rune) {
	n := len(text)
	middle := max(0, min(x-n/2, c.w-n))
	for _, at := range [][2]int{{x + 2, y}, {middle, y - 1}, {middle, y + 1}, {x - 1 - n, y}} {
		if c.room(at[0], at[1], n, RoleLimit) {
			c.label(at[0], at[1], text)
			return
		}
	}
}

// pathLabels names each path at the last of its corners that shows.
func (c canvas) pathLabels(paths []Path) {
	for _, p := range paths {
		text := runes(p.Label)
		for i := min(len(p.X), len(p.Y)) - 1; i >= 0 && len(text) > 0; i-- {
			if x, y, ok := c.place(Point{X: p.X[i], Y: p.Y[i]}); ok {
				c.labelBeside(x, y, text)
				break
			}
		}
	}
}

// events sets each mark in the first row from the top where its label has room
// beside it, or without the label in the first free one, and draws the line from
// there down, behind all values.
func (c canvas) events(events []Event) {
	for _, e := range events {
		x, inside := c.x.cell(e.X)
		text := runes(e.Label)
		y, at, ok := c.markRow(x, len(text))
		if !inside || !ok {
			continue
		}
		c.put(x, y, c.set.mark(e.Mark), RoleMark)
		if at >= 0 {
			c.label(at, y, text)
		}
		for y++; y < c.h; y++ {
			if c.at(x, y).role < RoleEvent {
				c.put(x, y, c.set.event, RoleEvent)
			}
		}
	}
}

// markRow finds the row for a mark at column x, and the column of its label of
// n cells: to the right, or else the left; -1 if it goes without.
func (c canvas) markRow(x, n int) (y, at int, ok bool) {
	bare := -1
	for y := range c.h {
		if c.at(x, y).role > RoleEvent {
			continue
		}
		if bare < 0 {
			bare = y
		}
		for _, at := range []int{x + 2, x - 1 - n} {
			if n > 0 && c.room(at, y, n, RoleBand) {
				return y, at, true
			}
		}
	}
	return bare, -1, bare >= 0
}

// lineLabels sets the name of each line on it, as far right as there is room,
// or else close by.
func (c canvas) lineLabels(lines []Line) {
	for _, l := range lines {
		text := runes(l.Label)
		y, ok := c.y.cell(l.Y)
		if !ok || len(text) == 0 {
			continue
		}
		from, to := c.runs(l)
		if x, ok := c.rightmost(y, from, to, len(text), RoleLimit); ok {
			c.label(x, y, text)
		} else if x, ok := c.rightmost(y-1, from, to, len(text), RoleBand); ok {
			c.label(x, y-1, text)
		} else if x, ok := c.rightmost(y+1, from, to, len(text), RoleBand); ok {
			c.label(x, y+1, text)
		}
	}
}

// rightmost finds room for n cells from the column from on, before to.
func (c canvas) rightmost(y, from, to, n int, above Role) (x int, ok bool) {
	for x = to - n; x >= from; x-- {
		if c.room(x, y, n, above) {
			return x, true
		}
	}
	return 0, false
}
