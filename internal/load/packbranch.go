package load

import "slices"

// How many steps a branch and bound may take: in between, and at the end,
// where it stops by itself if nobody says so; and how many it may take to list
// the fills of one cycle.
const (
	onceSteps  = 8_000
	briefSteps = 60_000
	longSteps  = 200_000
	fillSteps  = 100_000
)

// branching is one branch and bound over cycles.
type branching struct {
	*search
	best  found
	until int              // ticks
	seen  map[string]score // the best way so far to be left with these pieces
	cut   bool             // something was not tried
	even  bool             // an equal packing is better if it fills its cycles more unevenly
}

func (s *search) branchAtOnce()   { s.branch(onceSteps) }
func (s *search) branchBriefly()  { s.branch(briefSteps) }
func (s *search) branchAtLength() { s.branch(longSteps) }

// branch looks for a better packing of all, or for the proof that there is
// none.
func (s *search) branch(steps int) {
	best, whole := s.branchFrom(s.all, s.best, steps)
	s.keep(best)
	s.proved = whole && !s.tank.doubt
}

// branchFrom returns a packing of some pieces that is better than best, or
// best; whole says whether it looked everywhere.
func (s *search) branchFrom(all counts, best found, steps int) (found, bool) {
	b := branching{search: s, best: best, until: s.ticks + steps, seen: map[string]score{}}
	b.from(all, found{})
	return b.best, !b.cut
}

// from goes on from a packing of some pieces, with the rest to pack.
func (b *branching) from(rest counts, so found) {
	if rest.empty() {
		if b.better(so) {
			b.best = found{so.score, slices.Clone(so.fills)}
		}
		return
	}
	if b.hopeless(rest, so.score) {
		return
	}
	if !b.tick() || b.ticks > b.until {
		b.cut = true
		return
	}
	led := so.plus(score{1, b.timeOf(rest)})
	vain := func(left counts) bool { return b.beaten(led.plus(b.bounds.least(left))) }
	fills, whole := b.fills(rest, vain, min(fillSteps, b.until-b.ticks))
	b.cut = b.cut || !whole || b.stopped
	for _, f := range fills {
		b.from(rest.minus(f.counts), found{led, append(so.fills, f.counts)})
		if b.stopped || b.ticks > b.until {
			b.cut = true
			return
		}
	}
}

// better compares with the best so far.
func (b *branching) better(f found) bool {
	by := f.compare(b.best.score)
	return by < 0 || b.even && by == 0 && b.unevenness(f.fills) > b.unevenness(b.best.fills)+hair
}

// beaten says whether nothing that costs so much at least is wanted.
func (b *branching) beaten(least score) bool {
	by := least.compare(b.best.score)
	return by > 0 || by == 0 && !b.even
}

// hopeless says whether nothing better comes from here: by the bound, or as
// the same pieces were left over before at no more cost.
func (b *branching) hopeless(rest counts, so score) bool {
	if b.beaten(so.plus(b.bounds.least(rest))) {
		return true
	}
	if known, ok := b.seen[string(rest)]; ok && known.compare(so) <= 0 {
		return true
	}
	if len(b.seen) >= mostAnswers {
		clear(b.seen)
	}
	b.seen[string(rest)] = so
	return false
}
