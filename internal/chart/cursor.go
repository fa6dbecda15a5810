package chart

// cursor draws the line where a reader stands, wherever nothing else is said: it
// lies behind every value, and no label moves out of its way, so that moving it
// changes two columns and no more.
func (c canvas) cursor(at *float64) {
	if at == nil {
		return
	}
	x, ok := c.x.cell(*at)
	if !ok {
		return
	}
	for y := range c.h {
		if c.at(x, y).role <= RoleEvent {
			c.put(x, y, c.set.cursor, RoleCursor)
		}
	}
}

// cursor marks the same place on the x axis.
func (f frame) cursor(g grid, set *glyphs, at *float64) {
	if at == nil || f.foot < 2 {
		return
	}
	if x, ok := f.x.cell(*at); ok {
		g.put(f.left+x, f.y.n, set.cursor, RoleCursor)
	}
}
