package load

import (
	"cmp"
	"slices"
)

// piece is a number of like things, as the search sees them.
type piece struct {
	time  float64
	n     int
	share float64 // part of a cycle that one takes, roughly
	first bool    // has fewer places to go than others; it is placed before them
}

// longestThenLargest sorts by time, then by share, both falling.
func longestThenLargest(timeA, shareA, timeB, shareB float64) int {
	return cmp.Or(cmp.Compare(timeB, timeA), cmp.Compare(shareB, shareA))
}

// hardestFirst sorts pieces for placing them.
func hardestFirst(a, b piece) int {
	return cmp.Or(cmp.Compare(one(b.first), one(a.first)), cmp.Compare(b.share, a.share))
}

// found is a packing: what goes into each cycle.
type found struct {
	score
	fills []counts
}

// search looks for the best packing of pieces, which are sorted by
// longestThenLargest. Whether pieces share a cycle must be downward closed:
// what goes in together goes in without one of them too.
type search struct {
	pieces []piece
	plain  []resource // a cycle over one of these is refused before the baskets are tried
	clash  [][]bool   // pieces that may not share a cycle; nil where all may
	tank   *tank
	bounds bounds

	all    counts
	bound  score // of all
	best   found // of all; improves only
	proved bool

	stop    func() bool
	ticks   int
	stopped bool
}

func newSearch(pieces []piece, resources []resource, clash [][]bool, t *tank, stop func() bool) *search {
	s := &search{pieces: pieces, clash: clash, tank: t, stop: stop}
	for i, p := range pieces {
		s.all = append(s.all, uint8(p.n))
		s.bounds.whole = append(s.bounds.whole, i)
	}
	for _, r := range resources {
		if r.plain {
			s.plain = append(s.plain, r)
		}
	}
	s.bounds.pieces, s.bounds.resources = pieces, s.tellingResources(resources)
	return s
}

// tellingResources leaves the plain ones and those that prove most at the
// start: the bound is asked for often.
func (s *search) tellingResources(all []resource) []resource {
	const most = 14
	tells := func(r resource) float64 {
		sum := 0.0
		for i, t := range r.takes {
			sum += t * float64(s.all[i])
		}
		return sum / r.most
	}
	all = slices.DeleteFunc(slices.Clone(all), func(r resource) bool { return r.most <= 0 || !r.plain && tells(r) == 0 })
	slices.SortStableFunc(all, func(a, b resource) int {
		return cmp.Or(cmp.Compare(one(b.plain), one(a.plain)), cmp.Compare(tells(b), tells(a)))
	})
	return all[:min(most, len(all))]
}

// misfit is a piece that does not go into an empty bath, or -1.
func (s *search) misfit() int {
	for i := range s.pieces {
		alone := make(counts, len(s.pieces))
		alone[i] = 1
		if !s.fits(alone) {
			return i
		}
	}
	return -1
}

// fits says whether pieces go into one cycle.
func (s *search) fits(c counts) bool {
	for _, r := range s.plain {
		sum := 0.0
		for i, n := range c {
			sum += float64(n) * r.takes[i]
		}
		if sum > r.most*(1+hair) {
			return false
		}
	}
	if s.clashes(c) {
		return false
	}
	return s.tank.fits(c)
}

func (s *search) clashes(c counts) bool {
	if s.clash == nil {
		return false
	}
	for i, n := range c {
		for j := range i {
			if n > 0 && c[j] > 0 && s.clash[i][j] {
				return true
			}
		}
	}
	return false
}

// tick counts a step of the search and says whether to go on.
func (s *search) tick() bool {
	const often = 16
	s.ticks++
	if !s.stopped && s.stop != nil && s.ticks%often == 0 {
		s.stopped = s.stop()
	}
	return !s.stopped
}

// run searches: a packing at once, then better ones, then a proof.
func (s *search) run() {
	if s.all.empty() {
		s.proved = true
		return
	}
	s.bound = s.bounds.least(s.all)
	s.best = s.firstFits(s.all)
	for _, improve := range []func(){s.branchAtOnce, s.rearrangeBriefly, s.beam, s.branchBriefly, s.rearrangeAtLength, s.branchAtLength} {
		if s.proved = s.proved || s.best.compare(s.bound) == 0; s.proved || s.stopped {
			break
		}
		improve()
	}
	if s.proved = s.proved || s.best.compare(s.bound) == 0; s.proved {
		s.bound = s.best.score
	}
}

// keep takes a packing of all pieces if it is the best so far.
func (s *search) keep(f found) {
	if f.compare(s.best.score) < 0 {
		s.best = f
	}
}

// timeOf is how long a cycle lasts: as long as its first piece.
func (s *search) timeOf(c counts) float64 { return s.pieces[s.leader(c)].time }

// leader is the longest piece, the largest among equals.
func (s *search) leader(c counts) int {
	return slices.IndexFunc(c, func(n uint8) bool { return n > 0 })
}
