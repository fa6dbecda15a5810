package load

import (
	"cmp"
	"slices"
)

// The beam: how many states live on after each cycle, and how many fills each
// of them tries.
const (
	beamStates = 12
	beamFills  = 20
	beamSteps  = 1500 // to list fills, for each state
)

// state is a packing of some pieces, with what is left.
type state struct {
	found
	rest  counts
	least score // of all that may come of it
	left  float64
}

// beam builds packings cycle by cycle, and goes on with the few that promise
// most.
func (s *search) beam() { s.keep(s.beamFrom(s.all, s.best)) }

// beamFrom returns the best packing of some pieces that it finds, or best.
func (s *search) beamFrom(all counts, best found) found {
	states := []state{{rest: all}}
	for len(states) > 0 && !s.stopped {
		next := map[string]state{}
		for _, st := range states {
			for _, f := range s.promising(st, best.score) {
				to := s.after(st, f)
				if to.rest.empty() {
					if to.compare(best.score) < 0 {
						best = to.found
					}
					continue
				}
				known, ok := next[string(to.rest)]
				if to.least.compare(best.score) < 0 && (!ok || to.compare(known.score) < 0) {
					next[string(to.rest)] = to
				}
			}
		}
		states = bestStates(next)
	}
	return best
}

// promising are the fills to try next.
func (s *search) promising(st state, best score) []fill {
	led := st.score.plus(score{1, s.timeOf(st.rest)})
	vain := func(left counts) bool { return led.plus(s.bounds.least(left)).compare(best) >= 0 }
	fills, whole := s.fills(st.rest, vain, beamSteps)
	if !whole {
		for run := range beamFills {
			fills = append(fills, s.greedyFill(st.rest, s.weighed(run)))
		}
		slices.SortStableFunc(fills, func(a, b fill) int { return cmp.Compare(b.worth, a.worth) })
		fills = slices.CompactFunc(fills, func(a, b fill) bool { return slices.Equal(a.counts, b.counts) })
	}
	return fills[:min(beamFills, len(fills))]
}

// after is the state once the fill is in a cycle.
func (s *search) after(st state, f fill) state {
	to := state{rest: st.rest.minus(f.counts)}
	to.fills = append(slices.Clone(st.fills), f.counts)
	to.score = st.score.plus(score{1, s.timeOf(f.counts)})
	to.least = to.score
	if !to.rest.empty() {
		to.least = to.score.plus(s.bounds.least(to.rest))
	}
	for i, n := range to.rest {
		to.left += float64(n) * s.pieces[i].share
	}
	return to
}

// bestStates are those to go on with.
func bestStates(all map[string]state) []state {
	states := make([]state, 0, len(all))
	for _, st := range all {
		states = append(states, st)
	}
	slices.SortFunc(states, func(a, b state) int {
		return cmp.Or(a.least.compare(b.least), cmp.Compare(a.left, b.left), slices.Compare(a.rest, b.rest))
	})
	return states[:min(beamStates, len(states))]
}
