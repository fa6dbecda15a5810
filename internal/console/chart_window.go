package console

import "math"

// window is the part of a chart's time that is shown: all of it, or a half of it
// as often as was zoomed in. The zero window shows all.
type window struct {
	halved int
	from   float64 // where it begins, once it is zoomed in
}

// leastWindow is as near as a chart goes, in seconds: two days.
const leastWindow = 2 * 24 * 3600

// span is what is shown of a chart from lo to hi, and always inside it.
func (w window) span(lo, hi float64) (from, to float64) {
	if w.whole(lo, hi) {
		return lo, hi
	}
	long := w.length(lo, hi)
	from = max(lo, min(w.from, hi-long))
	return from, from + long
}

func (w window) whole(lo, hi float64) bool { return w.halved == 0 || w.length(lo, hi) >= hi-lo }

func (w window) length(lo, hi float64) float64 {
	return max(leastWindow, (hi-lo)/math.Pow(2, float64(w.halved)))
}

// zoom goes in by one half, or out by one, around a time if that is in sight and
// else around the middle. It is false where it goes no further.
func (w *window) zoom(in bool, lo, hi, around float64) bool {
	from, to := w.span(lo, hi)
	if around < from || around > to {
		around = (from + to) / 2
	}
	next := window{halved: w.halved - 1}
	if in {
		next.halved = w.halved + 1
	}
	if next.halved < 0 || in && to-from <= leastWindow {
		return false
	}
	next.from = around - next.length(lo, hi)/2
	*w = next.settled(lo, hi)
	return true
}

// pan moves half a window, later or earlier. It is false at the end.
func (w *window) pan(later bool, lo, hi float64) bool {
	from, to := w.span(lo, hi)
	by := (to - from) / 2
	if !later {
		by = -by
	}
	next := *w
	next.from = from + by
	next = next.settled(lo, hi)
	moved, _ := next.span(lo, hi)
	*w = next
	return moved != from
}

// follow brings a time into the middle that is not in sight.
func (w *window) follow(lo, hi, at float64) {
	if from, to := w.span(lo, hi); at < from || at > to {
		w.from = at - (to-from)/2
		*w = w.settled(lo, hi)
	}
}

// settled is w begun inside lo to hi, so that moving on starts from what is seen.
func (w window) settled(lo, hi float64) window {
	if w.whole(lo, hi) {
		return window{}
	}
	w.from, _ = w.span(lo, hi)
	return w
}
