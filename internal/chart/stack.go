package chart

// Stack is plots one above the other on one x axis: what lies in one column was
// at one time. The range, the ticks, the cursor and the glyphs are those of the
// first plot, and so is all the height that the others leave; a range that is
// not set is fitted to the data of all.
//
// Where the window is too low for all, the last go first. The zero Stack draws
// an empty window.
type Stack []Layer

// Layer is a plot of a Stack.
type Layer struct {
	Plot
	Head string // stands in a row of its own above the plot
	Rows int    // of the plot, without its head; the first has what is left
}

// leastFirst is how low the first plot of a stack may get before the others go.
const leastFirst = 5

// Draw returns h rows, each exactly w cells wide, for any w and h; a negative one
// counts as 0.
func (s Stack) Draw(w, h int) []Row {
	g := newGrid(max(w, 0), max(h, 0))
	if len(s) == 0 {
		return g.rows()
	}
	foot := footRows(g.h)
	shown, first := s.shown(g.h - foot)
	xs, set := shown.xSpan()
	frames := shown.frames(xs, set, g.w, first)
	y := 0
	for i, l := range shown {
		f := frames[i]
		l.Glyphs, l.Cursor = s[0].Glyphs, s[0].Cursor
		if i > 0 {
			l.head(g.part(0, y, g.w, 1), f)
			y++
		}
		if i == len(shown)-1 {
			f.foot = foot
			if !xs.empty() && foot > 0 {
				f.xTicks = chooseTicks(s[0].XTicks, f.x)
			}
		}
		l.drawIn(g.part(0, y, g.w, f.y.n+f.foot), f)
		y += f.y.n
	}
	return g.rows()
}

// shown is the layers that rows have room for, and how many of those are the
// first one's.
func (s Stack) shown(rows int) (Stack, int) {
	first, n := rows, 1
	for _, l := range s[1:] {
		takes := 1 + max(l.Rows, 0)
		if first-takes < leastFirst {
			break
		}
		first, n = first-takes, n+1
	}
	return s[:n], first
}

// xSpan returns the range of x to show, and whether the caller set it.
func (s Stack) xSpan() (all span, set bool) {
	if all, set = given(s[0].X0, s[0].X1); set {
		return all, true
	}
	all = noSpan()
	for _, l := range s {
		if of := l.xData(); !of.empty() {
			all.add(of.lo)
			all.add(of.hi)
		}
	}
	return all.fittedX(), false
}

// frames are the axes of each layer, with the same columns in all.
func (s Stack) frames(xs span, set bool, w, first int) []frame {
	frames := make([]frame, len(s))
	labels := 0
	for i, l := range s {
		rows := max(l.Rows, 0)
		if i == 0 {
			rows = first
		}
		frames[i].y, frames[i].yTicks = l.rowScale(xs, rows)
		labels = max(labels, widest(frames[i].yTicks))
	}
	for i := range frames {
		frames[i].setLeft(w, labels)
		frames[i].x = xAxis(xs, set, w-frames[i].left)
	}
	return frames
}

// head writes the name of a layer into the row above it. The cursor goes through
// beside it.
func (l Layer) head(g grid, f frame) {
	g.write(f.left, 0, runes(l.Head), RoleTick)
	c := canvas{grid: g.part(f.left, 0, f.x.n, 1), x: f.x, set: l.Glyphs.table()}
	c.cursor(l.Cursor)
}
