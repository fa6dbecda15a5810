package heat

import (
	"math"
	"slices"
	"time"

	"bathside/internal/units"
)

// What is a thing that happens to the liquor of a bath.
type What int

// Each says what the Volume of its event is.
const (
	Filled     What = iota // with water, to Volume; the bath was empty
	Poured                 // water
	Dosed                  // detergent
	Looked                 // how much was missing below the mark, for evaporation
	LookedLost             // the same, but it went out on gear or was spilled, with its soap
	CarriedOut             // on gear, or spilled: about so much
)

// Event is what happened, and when.
type Event struct {
	At     time.Time
	What   What
	Volume units.Volume
}

// Book is a bath whose water is accounted for.
type Book struct {
	Mark   units.Volume // when full
	Look   units.Volume // standard uncertainty of a level that was looked at
	PerDay units.Volume // evaporates
	Unsure float64      // standard uncertainty of PerDay, a part of it
	Out    units.Volume // carried out a day on gear from now on; what was, is in the events
}

// Level is what is in a bath at a time. It is an estimate from the last look.
type Level struct {
	At     time.Time
	Now    Liquor
	U      units.Volume // standard uncertainty of the volume
	Seen   time.Time    // when somebody last looked at the mark
	vapour units.Volume // evaporated since
	about  float64      // variance of what was told since, L²
	full   units.Volume // Now had nothing evaporated since
}

// outUnsure is how well a carry-out or a spill is known, a part of it. From
// memory.
const outUnsure = 0.3

// Level is what the events of one fill leave in the bath by now. Those before
// the fill and after now do not count, and without a fill it is false. Soap
// leaves only with liquor, never with vapour.
func (b Book) Level(events []Event, now time.Time) (Level, bool) {
	if course := b.Course(events, now); len(course) > 0 {
		return course[0], true
	}
	return Level{}, false
}

// Course is the level at each of the times, in their order, as Level gives it;
// those before the fill are left out. The times must ascend.
func (b Book) Course(events []Event, times ...time.Time) []Level {
	events = slices.Clone(events)
	slices.SortStableFunc(events, func(x, y Event) int { return x.At.Compare(y.At) })
	var course []Level
	var l Level
	known := false
	for _, t := range times {
		for len(events) > 0 && !events[0].At.After(t) {
			switch e := events[0]; {
			case e.What == Filled:
				l, known = b.seen(Level{At: e.At}, Liquor{Volume: e.Volume}), true
			case known:
				l = b.take(b.wait(l, e.At), e)
			}
			events = events[1:]
		}
		if known {
			at := b.wait(l, t)
			at.U = b.unsure(at, 0)
			course = append(course, at)
		}
	}
	return course
}

// wait lets water evaporate until then. The soap stays, so that a bath that
// nobody looked at for a season is not taken for one without soap.
func (b Book) wait(l Level, until time.Time) Level {
	gone := min(l.Now.Volume-l.Now.soap(), b.PerDay*units.Volume(units.SpanOf(until.Sub(l.At))/day))
	l.At, l.Now, l.vapour = until, l.Now.Dry(gone), l.vapour+gone
	return l
}

// seen is the bath just looked at.
func (b Book) seen(l Level, now Liquor) Level {
	return Level{At: l.At, Now: now, Seen: l.At, full: now.Volume}
}

func (b Book) take(l Level, e Event) Level {
	stands := max(0, b.Mark-e.Volume)
	switch e.What {
	case Poured:
		l.full += e.Volume
		l.Now = l.Now.Plus(Liquor{Volume: e.Volume})
	case Dosed:
		l.full += e.Volume
		l.Now = l.Now.Plus(Liquor{e.Volume, 1})
	case CarriedOut:
		l.full = max(0, l.full-e.Volume)
		l.about += math.Pow(outUnsure*float64(e.Volume), 2)
		l.Now = l.Now.Less(e.Volume)
	case Looked:
		return b.seen(l, liquor(stands, l.Now.soap()))
	case LookedLost:
		kept := units.Volume(1)
		if l.full > stands {
			kept = stands / l.full
		}
		return b.seen(l, liquor(stands, l.Now.soap()*kept))
	}
	return l
}

// unsure is the uncertainty of the volume after more has evaporated.
func (b Book) unsure(l Level, more units.Volume) units.Volume {
	vapour := b.Unsure * float64(l.vapour+more)
	return units.Volume(math.Sqrt(math.Pow(float64(b.Look), 2) + vapour*vapour + l.about))
}

// Falls is when a level falls below a mark, as things go on. Soonest is when it
// may already be there, with one chance in twenty. Both are the time of the
// level where it is there.
type Falls struct{ Soonest, About time.Time }

// horizon is as far ahead as a level is told.
const horizon = 366 // days

// Falls is when l falls below low. It is false where that is more than a year
// away.
func (b Book) Falls(l Level, low units.Volume) (Falls, bool) {
	about, ok := b.days(l, low, 0)
	if !ok {
		return Falls{}, false
	}
	const oneInTwenty = 1.645 // of a normal distribution, one side
	soonest, _ := b.days(l, low, oneInTwenty)
	in := func(days float64) time.Time { return l.At.Add(units.Span(days * float64(day)).Duration()) }
	return Falls{in(soonest), in(about)}, true
}

// days is how long it takes until the volume, less so many times its
// uncertainty, is below low. It halves the interval: the difference only falls.
func (b Book) days(l Level, low units.Volume, times units.Volume) (float64, bool) {
	below := func(days float64) bool {
		d := units.Volume(days)
		return l.Now.Volume-(b.PerDay+b.Out)*d-times*b.unsure(l, b.PerDay*d) < low
	}
	from, to := 0.0, float64(horizon)
	switch {
	case below(from):
		return 0, true
	case !below(to):
		return 0, false
	}
	for range 40 {
		if mid := (from + to) / 2; below(mid) {
			to = mid
		} else {
			from = mid
		}
	}
	return to, true
}
