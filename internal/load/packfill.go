package load

import (
	"cmp"
	"slices"
)

// Moving a piece from a later cycle into one where it fits lengthens neither:
// the longest piece left leads the next cycle, and takes along others that are
// no longer. So some best packing has only fills to which nothing that is left
// can be added, and only those are tried.

// fill is what goes into the next cycle.
type fill struct {
	counts
	worth float64
}

// filling lists the fills of one cycle.
type filling struct {
	*search
	rest  counts // what is left
	lead  int
	now   counts
	left  counts            // of rest, what is decided to stay out
	vain  func(counts) bool // whether nothing comes of leaving so much to later cycles
	steps int               // left; below 0 the list is cut
	fills []fill
}

// fills are those that the leader of rest may lead, the best first, without
// those that are in vain; whole says whether these are all.
func (s *search) fills(rest counts, vain func(left counts) bool, steps int) (fills []fill, whole bool) {
	if s.fits(rest) {
		return []fill{{rest.clone(), 0}}, true
	}
	f := filling{search: s, rest: rest, lead: s.leader(rest), now: make(counts, len(rest)), left: make(counts, len(rest)), vain: vain, steps: steps}
	f.choose(f.lead)
	slices.SortStableFunc(f.fills, func(a, b fill) int { return cmp.Compare(b.worth, a.worth) })
	return f.fills, f.steps >= 0
}

// choose takes as many of piece i as go in, then fewer, and goes on to the
// next piece. What does not go in now does not later.
func (f *filling) choose(i int) {
	from := i
	for ; i < len(f.rest) && !f.add(i); i++ {
		f.left[i] = f.rest[i]
	}
	defer clear(f.left[from:i])
	if i == len(f.rest) {
		f.note()
		return
	}
	if f.steps--; f.steps < 0 || !f.tick() {
		return
	}
	for least := uint8(one(i == f.lead)); ; f.now[i]-- {
		f.left[i] = f.rest[i] - f.now[i]
		if f.left[i] > 0 && f.vain(f.left) {
			break
		}
		f.choose(i + 1)
		if f.now[i] == least {
			break
		}
	}
	f.now[i], f.left[i] = 0, 0
}

// add takes as many of piece i as go in, and says whether any does.
func (f *filling) add(i int) bool {
	before := f.now[i]
	for f.now[i] < f.rest[i] {
		f.now[i]++
		if !f.fits(f.now) {
			f.now[i]--
			break
		}
	}
	return f.now[i] > before
}

// note keeps the fill, unless one more piece goes in. With fewer of something
// a fill still fits, but where baskets are filled by trial it is asked again.
func (f *filling) note() {
	if !f.fits(f.now) {
		return
	}
	for i := range f.now {
		if f.now[i] == f.rest[i] {
			continue
		}
		f.now[i]++
		more := f.fits(f.now)
		f.now[i]--
		if more {
			return
		}
	}
	f.fills = append(f.fills, fill{f.now.clone(), f.worth(f.now)})
}

// worth is how well a fill uses its cycle: by size, long pieces counting a
// little more.
func (s *search) worth(c counts) float64 {
	longest := s.pieces[0].time + hair
	worth := 0.0
	for i, n := range c {
		p := s.pieces[i]
		worth += float64(n) * p.share * (1 + 0.3*p.time/longest + 0.05*p.share)
	}
	return worth
}

// greedyFill adds to the leader of rest whatever goes in, in this order.
func (s *search) greedyFill(rest counts, order []int) fill {
	f := filling{search: s, rest: rest, lead: s.leader(rest), now: make(counts, len(rest))}
	f.now[f.lead] = 1
	for _, i := range order {
		f.add(i)
	}
	return fill{f.now, s.worth(f.now)}
}
