package console

import (
	"fmt"

	"bathside/internal/advise"
	"bathside/internal/chart"
)

// seriesChart is the large chart of Readings: the pH series of the fill under a
// line of words, and under it, where it is high enough, temperature and level on
// the same days. Its cursor stands on the marked reading, whose values are in a
// line above.
type seriesChart struct {
	t    *theme
	x    *advise.Snapshot
	w, h int
	rows int // of a strip; 0: no strips

	window  window
	marked  *advise.Judged
	compare bool            // lay the fill before over this one
	earlier *advise.Earlier // while it is; nil where there is none to compare
	fill    uint64          // the fill that the window was set on

	whole chart.Stack // cache of all there is to draw, whatever is shown of it
	drawn []string    // cache, until something it depends on is set
}

func (c *seriesChart) setTheme(t *theme) { c.t, c.whole, c.drawn = t, nil, nil }

// setSize says how large the chart is, and how many rows a strip has.
func (c *seriesChart) setSize(w, h, rows int) {
	if w == c.w && h == c.h && rows == c.rows {
		return
	}
	c.w, c.h, c.rows, c.whole, c.drawn = w, h, rows, nil, nil
}

// setSnapshot keeps what is zoomed in on as long as it is the same fill.
func (c *seriesChart) setSnapshot(x *advise.Snapshot) {
	c.x, c.whole, c.drawn = x, nil, nil
	if x.Life.Fill.Seq != c.fill {
		c.fill, c.window, c.compare = x.Life.Fill.Seq, window{}, false
	}
	_ = c.lookBack() // where there is nothing to compare with any more, it is taken away
}

// mark puts the cursor on a reading; nil takes it away. A window that the reading
// is not in moves to it where follow says so.
func (c *seriesChart) mark(r *advise.Judged, follow bool) {
	c.marked, c.drawn = r, nil
	if r != nil && follow {
		lo, hi := c.reach()
		c.window.follow(lo, hi, unix(r.At))
	}
}

// overlay lays the fill before over this one, or takes it away. The error is a
// sentence: why there is nothing to compare with.
func (c *seriesChart) overlay() error {
	c.compare, c.whole, c.drawn = !c.compare, nil, nil
	return c.lookBack()
}

func (c *seriesChart) lookBack() error {
	if c.earlier = nil; !c.compare {
		return nil
	}
	e, err := c.x.Earlier()
	if err != nil {
		c.compare = false
		return err
	}
	c.earlier = &e
	return nil
}

// reach is the time that the whole chart covers.
func (c *seriesChart) reach() (lo, hi float64) {
	if c.x == nil {
		return 0, 0
	}
	all := c.all()
	return all[0].X0, all[0].X1
}

// all is the whole chart, however much of it is shown.
func (c *seriesChart) all() chart.Stack {
	if c.whole != nil {
		return c.whole
	}
	ph := plot(c.x, c.t.glyphs, true)
	if c.earlier != nil {
		old := c.earlierPath()
		ph.Paths = append(ph.Paths, old)
		ph.X1 = max(ph.X1, old.X[len(old.X)-1])
	}
	c.whole = chart.Stack{{Plot: ph}}
	if c.rows > 0 {
		c.whole = append(c.whole, strips(c.x, c.t.glyphs, c.rows)...)
	}
	return c.whole
}

// earlierPath is the fill before on the days of this one, first reading on first
// reading.
func (c *seriesChart) earlierPath() chart.Path {
	p := chart.Path{Label: earlierSay(c.x, *c.earlier), Thin: true}
	from := unix(c.x.PH.First.At)
	for i, day := range c.earlier.Days {
		p.X, p.Y = append(p.X, from+day*24*3600), append(p.Y, c.earlier.PH[i])
	}
	return p
}

// earlierSay names a fill before, and its temperature where its pH cannot be held
// against this one's as they stand.
func earlierSay(x *advise.Snapshot, e advise.Earlier) string {
	name := fmt.Sprintf("bath %d", e.Number)
	if apart := e.AtC - x.PH.First.Is.SampleC; apart > advise.Comparable || apart < -advise.Comparable {
		name += " at " + x.Sys.Temp(e.AtC)
	}
	return name
}

func (c *seriesChart) view() []string {
	if c.drawn == nil {
		c.drawn = rows(c.draw(), c.w, c.h)
	}
	return c.drawn
}

// leastWithValues is how high a chart must be for a line with the values of the
// marked reading; below that the list has them.
const leastWithValues = 9

func (c *seriesChart) draw() []string {
	if c.x == nil || c.h == 0 {
		return nil
	}
	if len(c.x.PH.Readings) == 0 || c.h < 5 {
		return []string{" " + trendWords(c.x, c.w-1, true)}
	}
	out := []string{c.words()}
	if c.h >= leastWithValues {
		out = append(out, c.values())
	}
	shown := append(chart.Stack{}, c.all()...)
	shown[0].X0, shown[0].X1 = c.window.span(c.reach())
	if c.marked != nil {
		shown[0].Cursor = new(unix(c.marked.At))
	}
	return append(out, c.t.plot(shown, c.w, c.h-len(out))...)
}
