package load

import (
	"math"
	"slices"

	"bathside/internal/units"
)

// timeline is what comes back when, for one order of the washes.
type timeline struct {
	r      Request
	rinse  places
	dry    places
	ready  map[string][]units.Span // by item id, in order
	last   units.Span
	sum    units.Span // over all pieces
	washes []Wash
}

// places are rinse or drying places, each with when it is free; none is no
// limit.
type places []units.Span

// take is when a piece that comes at that time is done.
func (p places) take(at, takes units.Span) units.Span {
	if len(p) == 0 {
		return at + takes
	}
	free := 0
	for i := range p {
		if p[i] < p[free] {
			free = i
		}
	}
	p[free] = max(p[free], at) + takes
	return p[free]
}

// timeline runs the washes one after the other and every piece through rinse
// and drying, first out first in; of one wash, what is needed goes first.
func (r Request) timeline(washes []Wash) timeline {
	t := timeline{
		r: r, washes: slices.Clone(washes), ready: map[string][]units.Span{},
		rinse: make(places, r.Care.RinsePlaces), dry: make(places, r.Care.DryPlaces),
	}
	var now units.Span
	for i := range t.washes {
		w := &t.washes[i]
		w.Start = now
		w.Out = w.Start + units.Minutes(w.Minutes)
		now = w.Out + r.Care.Changeover
		t.after(w)
	}
	for _, times := range t.ready {
		slices.Sort(times)
	}
	return t
}

// after takes the pieces of a wash through rinse and drying.
func (t *timeline) after(w *Wash) {
	w.AllBack = w.Out
	for _, needed := range []bool{true, false} {
		for _, b := range w.Baskets {
			for _, line := range b.Lines {
				id := t.r.Batches[line.Batch].Item.ID
				if t.r.needs(id) != needed {
					continue
				}
				for range line.N {
					back := t.dry.take(t.rinse.take(w.Out, t.r.Care.Rinse), t.r.Care.Dry[id])
					t.ready[id] = append(t.ready[id], back)
					t.sum += back
					t.last = max(t.last, back)
					w.AllBack = max(w.AllBack, back)
				}
			}
		}
	}
}

func (r Request) needs(id string) bool {
	return slices.ContainsFunc(r.Needs, func(n Need) bool { return n.Item == id })
}

// nth is when so many of an item are back.
func (t *timeline) nth(id string, n int) (units.Span, bool) {
	times := t.ready[id]
	switch {
	case n <= 0:
		return 0, true
	case n > len(times):
		return units.Span(math.Inf(1)), false
	}
	return times[n-1], true
}

// needsMet answers the needs.
func (t *timeline) needsMet() []NeedMet {
	var all []NeedMet
	for _, need := range t.r.Needs {
		met := NeedMet{Need: need}
		if met.At, met.In = t.nth(need.Item, need.N); !met.In {
			met.At = 0
		}
		met.Met = met.In && (need.By == 0 || met.At <= need.By)
		all = append(all, met)
	}
	return all
}

// late is by how much the needs are late in all.
func (t *timeline) late() units.Span {
	var late units.Span
	for _, need := range t.r.Needs {
		if at, in := t.nth(need.Item, need.N); in {
			late += max(0, at-need.By)
		}
	}
	return late
}

// sets is when the first, second, ... complete set is back.
func (t *timeline) sets() []units.Span {
	parts := t.r.Set
	if parts == nil {
		parts = []Part{{"mask", 1}, {"pack", 1}}
	}
	var sets []units.Span
	for k := 1; k <= mostThings; k++ {
		var at units.Span
		some := false
		for _, part := range parts {
			back, in := t.nth(part.Item, k*part.N)
			if !in {
				return sets
			}
			at, some = max(at, back), some || part.N > 0
		}
		if !some {
			return nil
		}
		sets = append(sets, at)
	}
	return sets
}
