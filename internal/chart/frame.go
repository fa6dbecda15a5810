package chart

// frame is where things stand: the axes, and the scales of the plot between
// them.
type frame struct {
	left           int // columns of y labels and y axis
	foot           int // rows of x axis and x labels, 0 to 2
	x, y           scale
	xTicks, yTicks []Tick
}

// leastPlot is the width below which a plot does without y labels.
const leastPlot = 12

func (p Plot) frame(w, h int) frame {
	f := frame{foot: footRows(h)}
	xs, set := p.xSpan()
	f.y, f.yTicks = p.rowScale(xs, h-f.foot)
	f.setLeft(w, widest(f.yTicks))
	f.x = xAxis(xs, set, w-f.left)
	if !xs.empty() && f.foot > 0 {
		f.xTicks = chooseTicks(p.XTicks, f.x)
	}
	return f
}

// rowScale returns the scale of the rows for what xs shows, and its labels.
func (p Plot) rowScale(xs span, rows int) (scale, []Tick) {
	ys, set := p.ySpan(xs)
	y, ticks := yAxis(ys, set, rows)
	for i, t := range ticks {
		if p.YFormat != nil {
			ticks[i].Label = p.YFormat(t.At)
		}
	}
	return y, ticks
}

// setLeft makes room for labels of so many cells; where there is none, the plot
// goes without.
func (f *frame) setLeft(w, labels int) {
	if f.left = labels + 2; labels == 0 || w-f.left < leastPlot {
		f.left, f.yTicks = min(w, 1), nil
	}
}

// footRows gives a tall plot a row of its own for the x axis; a low one has the
// labels beside the corner; a very low one has neither.
func footRows(h int) int {
	switch {
	case h < 3:
		return 0
	case h < 10:
		return 1
	default:
		return 2
	}
}

// yAxis returns the scale of the rows, and the labels.
func yAxis(s span, set bool, rows int) (scale, []Tick) {
	switch {
	case s.empty() || rows < 3:
		if s.empty() {
			s = span{0, 1}
		}
		return scale{s.hi, s.lo, rows}, nil
	case set:
		return scale{s.hi, s.lo, rows}, Decimal(s.lo, s.hi, min((rows+1)/2, 8))
	}
	s, step := fit(s, rows)
	return scale{s.hi, s.lo, rows}, multiples(s.lo, s.hi, step)
}

// xAxis returns the scale of the columns; a fitted one keeps a column free at
// either end.
func xAxis(s span, set bool, cols int) scale {
	if s.empty() {
		s = span{0, 1}
	}
	if !set && cols > 4 {
		pad := (s.hi - s.lo) / float64(cols-3)
		s = span{s.lo - pad, s.hi + pad}
	}
	return scale{s.lo, s.hi, cols}
}

func widest(ticks []Tick) int {
	n := 0
	for _, t := range ticks {
		n = max(n, len(runes(t.Label)))
	}
	return n
}

// chooseTicks returns as many ticks as have room for their labels: about one in
// ten columns, fewer if these are long.
func chooseTicks(choose Ticks, x scale) []Tick {
	if choose == nil {
		choose = Decimal
	}
	for most := max(2, x.n/8); most > 0; most-- {
		if ticks := choose(x.lo, x.hi, most); fits(ticks, x) {
			return ticks
		}
	}
	return nil
}

// fits reports whether the labels stand apart, two columns at least, and none
// is longer than the axis.
func fits(ticks []Tick, x scale) bool {
	end := -2
	for _, t := range ticks {
		col, ok := x.cell(t.At)
		n := len(runes(t.Label))
		start := labelStart(col, n, x.n)
		if !ok || n > x.n || start < end+2 {
			return false
		}
		end = start + n
	}
	return true
}

// labelStart centres a label of n cells on a column, but keeps it on the axis.
func labelStart(col, n, width int) int {
	return max(0, min(col-(n-1)/2, width-n))
}

// draw draws the axes round the plot, and where the lines leave them.
func (f frame) draw(g grid, set *glyphs, lines []Line) {
	rows := f.y.n
	for y := range rows {
		g.put(f.left-1, y, set.side, RoleAxis)
	}
	for _, t := range f.yTicks {
		if y, ok := f.y.cell(t.At); ok {
			label := runes(t.Label)
			g.write(f.left-2-len(label), y, label, RoleTick)
			g.put(f.left-1, y, set.tick, RoleAxis)
		}
	}
	for _, l := range lines {
		if y, ok := f.y.cell(l.Y); ok && l.across() {
			g.put(f.left-1, y, set.lineStart, RoleAxis)
		}
	}
	if f.foot == 0 || f.left == 0 {
		return
	}
	g.put(f.left-1, rows, set.corner, RoleAxis)
	if f.foot == 2 {
		for x := range f.x.n {
			g.put(f.left+x, rows, set.foot, RoleAxis)
		}
	}
	f.drawXTicks(g, set)
}

func (f frame) drawXTicks(g grid, set *glyphs) {
	for _, t := range f.xTicks {
		col, ok := f.x.cell(t.At)
		if !ok {
			continue
		}
		label := runes(t.Label)
		g.write(f.left+labelStart(col, len(label), f.x.n), f.y.n+f.foot-1, label, RoleTick)
		if f.foot == 2 {
			g.put(f.left+col, f.y.n, set.footTick, RoleAxis)
		}
	}
}
