package load

import "slices"

// counts is how many of each piece; no more than mostThings of any.
type counts []uint8

func (c counts) clone() counts { return slices.Clone(c) }

func (c counts) empty() bool { return !slices.ContainsFunc(c, func(n uint8) bool { return n > 0 }) }

func (c counts) minus(d counts) counts {
	rest := c.clone()
	for i, n := range d {
		rest[i] -= n
	}
	return rest
}

func (c counts) plus(d counts) counts {
	sum := c.clone()
	for i, n := range d {
		sum[i] += n
	}
	return sum
}

// basketMake is one make of basket: the half slots it takes in the bath, and
// how many of it there are.
type basketMake struct {
	slots, count int
}

// stowed is a basket with what is in it.
type stowed struct {
	of int // index of its make
	in counts
}

// tank finds out whether pieces go into the bath together. What it answers is
// kept, so it serves one search only.
type tank struct {
	slots, most int // half slots, and baskets at once
	makes       []basketMake
	deepLast    bool                         // a later make is opened only where no earlier one holds the piece
	holds       func(of int, in counts) bool // true of fewer things too
	order       []int                        // pieces, hardest to place first
	basket      []map[string]bool            // answers of holds, by make
	cycle       map[string]bool              // answers of stow
	doubt       bool                         // some no may have been a yes: an exhausted search proves nothing
}

// stowTries is after how many attempts to place a piece the tank gives up.
const stowTries = 4000

// mostAnswers is how many answers are kept before they are all forgotten.
const mostAnswers = 1 << 18

func newTank(t tank, pieces []piece) *tank {
	t.order = make([]int, len(pieces))
	for i := range t.order {
		t.order[i] = i
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return hardestFirst(pieces[a], pieces[b]) })
	t.basket = make([]map[string]bool, len(t.makes))
	for i := range t.basket {
		t.basket[i] = map[string]bool{}
	}
	t.cycle = map[string]bool{}
	return &t
}

// fits is stow without the baskets.
func (t *tank) fits(c counts) bool {
	answer, known := t.cycle[string(c)]
	if known {
		return answer
	}
	_, answer = t.stow(c)
	if len(t.cycle) >= mostAnswers {
		clear(t.cycle)
	}
	t.cycle[string(c)] = answer
	return answer
}

// stow puts the pieces into baskets that go into the bath together.
func (t *tank) stow(c counts) ([]stowed, bool) {
	try := stowing{tank: t, want: c, tries: stowTries}
	if try.next(0, 0, 0) {
		return try.open, true
	}
	t.doubt = t.doubt || try.tries < 0
	return nil, false
}

// holding asks holds once for each content.
func (t *tank) holding(of int, in counts) bool {
	known := t.basket[of]
	answer, ok := known[string(in)]
	if !ok {
		if len(known) >= mostAnswers {
			clear(known)
		}
		answer = t.holds(of, in)
		known[string(in)] = answer
	}
	return answer
}

// stowing is one attempt to place pieces, one after the other.
type stowing struct {
	tank  *tank
	want  counts
	open  []stowed
	slots int // taken
	tries int // left
}

// next places piece number done of type tank.order[at], in basket from or a
// later one: like pieces are not tried in every order.
func (s *stowing) next(at, done, from int) bool {
	for at < len(s.tank.order) && done == int(s.want[s.tank.order[at]]) {
		at, done, from = at+1, 0, 0
	}
	if at == len(s.tank.order) {
		return true
	}
	if s.tries--; s.tries < 0 {
		return false
	}
	i := s.tank.order[at]
	for b := from; b < len(s.open); b++ {
		if s.twin(from, b) {
			continue
		}
		s.open[b].in[i]++
		if s.tank.holding(s.open[b].of, s.open[b].in) && s.next(at, done+1, b) {
			return true
		}
		s.open[b].in[i]--
	}
	return s.inNew(at, done, i)
}

// inNew opens a basket for the piece.
func (s *stowing) inNew(at, done, i int) bool {
	for of, m := range s.tank.makes {
		in := make(counts, len(s.want))
		in[i] = 1
		if s.slots+m.slots > s.tank.slots || len(s.open) == s.tank.most || s.opened(of) == m.count || !s.tank.holding(of, in) {
			continue
		}
		s.open = append(s.open, stowed{of, in})
		s.slots += m.slots
		if s.next(at, done+1, len(s.open)-1) {
			return true
		}
		s.open = s.open[:len(s.open)-1]
		s.slots -= m.slots
		if s.tank.deepLast {
			return false
		}
	}
	return false
}

// twin says whether an earlier basket is like this one, so that placing the
// piece there was tried.
func (s *stowing) twin(from, b int) bool {
	for _, earlier := range s.open[from:b] {
		if earlier.of == s.open[b].of && slices.Equal(earlier.in, s.open[b].in) {
			return true
		}
	}
	return false
}

func (s *stowing) opened(of int) int {
	n := 0
	for _, b := range s.open {
		if b.of == of {
			n++
		}
	}
	return n
}
