// Package chart draws a time series as rows of plain text: points with error
// bars, curves, horizontal and vertical lines, fans of likely values, and the
// axes around them.
//
// It is pure and knows neither the trade nor colours. What it gives back is
// text cut into spans, each with the role it plays; the caller colours by role.
// It is no general plotting library: a plot has one y axis, at the left, and one
// x axis, at the foot, which a Stack of plots shares.
package chart

import "strings"

// Plot is what to draw. The zero value draws a bare pair of axes.
//
// Numbers that are not finite, or beyond 1e100, are left out wherever they
// stand. What lies outside the ranges is left out too.
type Plot struct {
	Bands  []Band
	Lines  []Line
	Events []Event
	Paths  []Path
	Points []Point

	// X0 to X1 and Y0 to Y1 are the ranges shown. A range that is empty or
	// upside down is fitted to the data, with a margin; y is fitted to what x
	// shows, and so that every tick falls on a row.
	X0, X1, Y0, Y1 float64

	// Cursor is where a reader of the chart stands: a vertical line that hides
	// no value and moves no label. nil is none.
	Cursor *float64

	XTicks  Ticks                  // marks of the x axis; nil: Decimal
	YFormat func(v float64) string // labels of the y axis; nil: the decimals the step needs
	Glyphs  Glyphs
}

// Point is one value. Points lie over everything else, and two or more in one
// cell show as the mark Several.
type Point struct {
	X, Y  float64
	Err   float64 // half the length of the error bar; 0 for none
	Mark  Mark
	Label string // set beside the point where there is room, or not at all
}

// Line is a horizontal line. Its label stands on the line, as far right as it
// hides nothing, else just above or below, or not at all.
type Line struct {
	Y        float64
	Label    string
	Limit    bool    // a line not to be crossed: its role is RoleLimit
	From, To float64 // where it runs; both 0: across the plot
}

// Event is a vertical line with a mark and a label at its top.
type Event struct {
	X     float64
	Mark  Mark
	Label string // left out where there is no room
}

// Band is a fan of likely values between Lo and Hi, drawn light. X ascends; the
// three are as long as the shortest of them. Where bands overlap they are
// darker, so that a likely range may lie inside a wide one.
type Band struct{ X, Lo, Hi []float64 }

// Path is a curve, joined up between its corners. A value left out breaks it.
type Path struct {
	X, Y  []float64
	Label string // set beside the last corner shown where there is room, or not at all
	Thin  bool   // dashed and behind all values, with the mark Other at each corner
}

// Role says what a span of text stands for. What has the higher role is drawn
// over what has the lower.
type Role int

// The roles. RoleTick is the label of an axis, RoleLabel any other label.
const (
	RoleBlank Role = iota
	RoleBand
	RoleLine
	RoleLimit
	RoleEvent
	RoleCursor
	RoleThin // a thin path, and its corners
	RolePath
	RoleError
	RoleHollow
	RolePoint
	RoleMark
	RoleLabel
	RoleAxis
	RoleTick
)

// Span is a piece of a row that plays one role.
type Span struct {
	Text string
	Role Role
}

// Row is one line of the drawing.
type Row []Span

// String returns the row without its roles.
func (r Row) String() string {
	var b strings.Builder
	for _, s := range r {
		b.WriteString(s.Text)
	}
	return b.String()
}

// Draw returns h rows, each exactly w cells wide, for any w and h; a negative
// one counts as 0. In a small window labels go first, then the x axis.
func (p Plot) Draw(w, h int) []Row {
	g := newGrid(max(w, 0), max(h, 0))
	p.drawIn(g, p.frame(g.w, g.h))
	return g.rows()
}

// drawIn draws the plot into g, where f says.
func (p Plot) drawIn(g grid, f frame) {
	set := p.Glyphs.table()
	f.draw(g, set, p.Lines)

	c := canvas{grid: g.part(f.left, 0, f.x.n, f.y.n), x: f.x, y: f.y, set: set}
	c.bands(p.Bands)
	c.lines(p.Lines)
	c.paths(p.Paths, p.Glyphs)
	c.points(p.Points)
	// The rest looks for room between the values.
	c.events(p.Events)
	c.pointLabels(p.Points)
	c.pathLabels(p.Paths)
	c.lineLabels(p.Lines)
	c.cursor(p.Cursor)
	f.cursor(g, set, p.Cursor)
}
