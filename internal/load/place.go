package load

import (
	"cmp"
	"slices"

	"bathside/internal/units"
)

// Rect is what a thing covers of the floor of a basket.
type Rect struct {
	Length, Width units.Length
}

// Spot is where a thing lies on a layer, seen from above, from one corner.
type Spot struct {
	Of            int // index of the thing
	X, Y          units.Length
	Length, Width units.Length // along X and along Y, turned as it lies
}

// Place lays things side by side on a floor, turned by 90 degrees where that
// helps. When it says false it has not found a way; there may be one.
func Place(length, width units.Length, things []Rect) ([]Spot, bool) {
	all := make([]int, len(things))
	for i := range all {
		all[i] = i
	}
	for _, way := range layingWays(things, all) {
		f := newFloor(length, width)
		if f.layAll(things, way) {
			return f.spots, true
		}
	}
	return nil, false
}

// layingWay is an order to lay things in, and how to turn them.
type layingWay struct {
	order []int
	turn  turn
}

// turn is which way round a thing is tried first.
type turn uint8

const (
	lowest turn = iota // whichever leaves its far edge lowest
	along              // its long side along the floor's length, the other way only if that does not go
	across             // its short side
	numTurns
)

// layingWays are the ways in which some of the things are tried: large ones
// first in several meanings, then as by chance.
func layingWays(things []Rect, some []int) []layingWay {
	const byChance = 12
	size := []func(r Rect) float64{
		func(r Rect) float64 { return float64(r.Length) * float64(r.Width) },
		func(r Rect) float64 { return float64(max(r.Length, r.Width)) },
		func(r Rect) float64 { return float64(min(r.Length, r.Width)) },
		func(r Rect) float64 { return float64(r.Length + r.Width) },
	}
	var ways []layingWay
	for turn := range numTurns {
		for _, of := range size {
			order := slices.Clone(some)
			slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(of(things[b]), of(things[a])) })
			ways = append(ways, layingWay{order, turn})
		}
	}
	for run := range byChance {
		order := slices.Clone(some)
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(scatter(a, run), scatter(b, run)) })
		ways = append(ways, layingWay{order, turn(run) % numTurns})
	}
	return ways
}

// turned is the thing the ways round that are tried together, in order.
func (t turn) turned(r Rect) [][]Rect {
	long, short := max(r.Length, r.Width), min(r.Length, r.Width)
	flat, upright := Rect{long, short}, Rect{short, long}
	switch t {
	case along:
		return [][]Rect{{flat}, {upright}}
	case across:
		return [][]Rect{{upright}, {flat}}
	}
	return [][]Rect{{flat, upright}}
}

// floor is a layer being filled from Y = 0 upward. Its skyline has no gaps:
// what lies below a thing is taken.
type floor struct {
	length, width units.Length
	line          []step
	spots         []Spot
}

// step is a level stretch of the skyline.
type step struct {
	x, length, y units.Length
}

// tight is how far a thing may seem to stick out by converting inches, in
// metres.
const tight = 1e-7

func newFloor(length, width units.Length) *floor {
	return &floor{length: length, width: width, line: []step{{0, length, 0}}}
}

func (f *floor) clone() *floor {
	return &floor{f.length, f.width, slices.Clone(f.line), slices.Clone(f.spots)}
}

func (f *floor) layAll(things []Rect, way layingWay) bool {
	for _, i := range way.order {
		if !f.lay(i, things[i], way.turn) {
			return false
		}
	}
	return true
}

// lay puts a thing down, if there is room.
func (f *floor) lay(i int, r Rect, t turn) bool {
	for _, ways := range t.turned(r) {
		if s, ok := f.lowest(ways); ok {
			s.Of = i
			f.spots = append(f.spots, s)
			f.raise(s)
			return true
		}
	}
	return false
}

// lowest is where the far edge of one of the rectangles comes lowest, and
// leftmost.
func (f *floor) lowest(ways []Rect) (best Spot, found bool) {
	for _, r := range ways {
		for at := range f.line {
			y, ok := f.restsAt(at, r)
			if ok && (!found || y+r.Width < best.Y+best.Width-tight) {
				best, found = Spot{X: f.line[at].x, Y: y, Length: r.Length, Width: r.Width}, true
			}
		}
	}
	return best, found
}

// restsAt is the level at which a thing rests with its left edge at that step.
func (f *floor) restsAt(at int, r Rect) (y units.Length, ok bool) {
	if f.line[at].x+r.Length > f.length+tight {
		return 0, false
	}
	right := f.line[at].x + r.Length
	for ; at < len(f.line) && f.line[at].x < right-tight; at++ {
		y = max(y, f.line[at].y)
	}
	return y, y+r.Width <= f.width+tight
}

// raise lifts the skyline over a spot.
func (f *floor) raise(s Spot) {
	left, right := s.X, s.X+s.Length
	var line []step
	for _, st := range f.line {
		end := st.x + st.length
		if st.x < left-tight {
			line = append(line, step{st.x, min(end, left) - st.x, st.y})
		}
		if end > right+tight {
			from := max(st.x, right)
			line = append(line, step{from, end - from, st.y})
		}
	}
	line = append(line, step{left, s.Length, s.Y + s.Width})
	slices.SortFunc(line, func(a, b step) int { return cmp.Compare(a.x, b.x) })
	f.line = line
}
