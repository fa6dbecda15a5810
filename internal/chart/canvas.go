package chart

import (
	"math"
	"slices"
)

// canvas is the plot between the axes.
type canvas struct {
	grid
	x, y scale
	set  *glyphs
}

// bands shades the cells whose middle lies in a fan.
func (c canvas) bands(bands []Band) {
	for _, b := range bands {
		n := min(len(b.X), len(b.Lo), len(b.Hi))
		for col := range c.w {
			x := c.x.lo
			if c.w > 1 {
				x += (c.x.hi - c.x.lo) * float64(col) / float64(c.w-1)
			}
			i, t, ok := between(b.X[:n], x)
			if !ok {
				continue
			}
			c.shade(col, mix(b.Hi, i, t), mix(b.Lo, i, t))
		}
	}
}

// shade darkens a column from hi down to lo; a fan too thin to reach the middle
// of a row still shows in the row it is nearest to.
func (c canvas) shade(col int, hi, lo float64) {
	if !usable(hi) || !usable(lo) {
		return
	}
	top, foot := c.y.at(hi), c.y.at(lo)
	first, last := math.Ceil(top), math.Floor(foot)
	if first > last && top <= foot {
		first = math.Floor((top+foot)/2 + 0.5)
		last = first
	}
	for y := max(first, 0); y <= min(last, float64(c.h-1)); y++ {
		char := c.set.band
		if c.at(col, int(y)).role == RoleBand {
			char = c.set.dense
		}
		c.put(col, int(y), char, RoleBand)
	}
}

// between finds x among ascending xs: the index of the one before it, and how
// far it is to the next, 0 to 1.
func between(xs []float64, x float64) (i int, t float64, ok bool) {
	if len(xs) == 0 {
		return 0, 0, false
	}
	i, exact := slices.BinarySearch(xs, x)
	switch {
	case exact:
		return i, 0, true
	case i == 0 || i == len(xs):
		return 0, 0, false
	}
	t = (x - xs[i-1]) / (xs[i] - xs[i-1])
	return i - 1, t, t >= 0 && t <= 1
}

// mix returns the value t of the way from ys[i] to the next.
func mix(ys []float64, i int, t float64) float64 {
	if t == 0 {
		return ys[i]
	}
	return ys[i]*(1-t) + ys[i+1]*t
}

func (c canvas) lines(lines []Line) {
	for _, l := range lines {
		y, ok := c.y.cell(l.Y)
		if !ok {
			continue
		}
		from, to := c.runs(l)
		for x := from; x < to; x++ {
			char := c.set.line
			if x%2 == 1 {
				char = c.set.lineGap
			}
			c.put(x, y, char, l.role())
		}
	}
}

// runs gives the columns that a line runs over, from the first up to the second.
func (c canvas) runs(l Line) (from, to int) {
	if l.across() {
		return 0, c.w
	}
	if !usable(l.From) || !usable(l.To) {
		return 0, 0
	}
	in := func(at float64) int { return int(max(0, min(math.Floor(at), float64(c.w)))) }
	return in(c.x.at(l.From) + 0.5), in(c.x.at(l.To) + 1.5)
}

func (l Line) across() bool { return l.From == 0 && l.To == 0 }

func (l Line) role() Role {
	if l.Limit {
		return RoleLimit
	}
	return RoleLine
}

// points draws all the error bars before any point, so that no bar hides one.
func (c canvas) points(points []Point) {
	for _, p := range points {
		if x, y, ok := c.place(p); ok && errorOf(p) > 0 {
			c.bar(x, y, p)
		}
	}
	for _, p := range points {
		x, y, ok := c.place(p)
		if !ok {
			continue
		}
		role, char := RolePoint, c.set.mark(p.Mark)
		if p.Mark == Hollow || p.Mark == Raw {
			role = RoleHollow
		}
		if here := c.at(x, y).role; here == RolePoint || here == RoleHollow {
			role, char = RolePoint, c.set.mark(Several)
		}
		c.put(x, y, char, role)
	}
}

func (c canvas) place(p Point) (x, y int, ok bool) {
	x, okX := c.x.cell(p.X)
	y, okY := c.y.cell(p.Y)
	return x, y, okX && okY
}

// bar draws an error bar to the nearest half of a cell.
func (c canvas) bar(x, y int, p Point) {
	e := errorOf(p)
	top := math.Floor(2*c.y.at(p.Y+e) + 1.5) // in half rows from the top of the plot
	foot := math.Floor(2*c.y.at(p.Y-e) + 1.5)
	for row := range c.h {
		upper := top <= float64(2*row) && foot > float64(2*row)
		lower := top <= float64(2*row+1) && foot > float64(2*row+1)
		switch {
		case row == y:
		case upper && lower:
			c.put(x, row, c.set.bar[2], RoleError)
		case lower:
			c.put(x, row, c.set.bar[1], RoleError)
		case upper:
			c.put(x, row, c.set.bar[0], RoleError)
		}
	}
}
