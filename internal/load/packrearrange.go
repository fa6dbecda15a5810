package load

import (
	"math/rand/v2"
	"slices"
)

// How long rearranging goes on: rounds without fewer cycles or less time, steps
// of each round, and steps in all.
const (
	idleRounds     = 3_000
	roundSteps     = 2_000
	rearrangeSteps = 100_000
)

// rearrangeBriefly stops earlier where there are few cycles to choose from.
func (s *search) rearrangeBriefly() {
	s.rearrange(min(idleRounds, 4*s.best.cycles*s.best.cycles))
}

func (s *search) rearrangeAtLength() { s.rearrange(idleRounds) }

// rearrange empties a few cycles of the best packing and packs their pieces
// anew, over and over.
func (s *search) rearrange(rounds int) {
	chance := rand.New(rand.NewPCG(1, uint64(rounds))) // the same each time
	until := s.ticks + rearrangeSteps
	for idle := 0; idle < rounds && s.ticks < until && !s.stopped && s.best.compare(s.bound) > 0; idle++ {
		few := min(2+idle%5, len(s.best.fills))
		if s.rearrangeSome(chance.Perm(len(s.best.fills))[:few]) {
			idle = 0
		}
	}
}

// rearrangeSome packs the pieces of these cycles anew, and says whether fewer
// cycles or less time came of it. What is equal but fills some cycles more and
// others less is taken too: a cycle that is nearly empty goes next.
func (s *search) rearrangeSome(some []int) bool {
	var old, kept found
	pieces := make(counts, len(s.pieces))
	for i, f := range s.best.fills {
		if slices.Contains(some, i) {
			old.fills = append(old.fills, f)
			pieces = pieces.plus(f)
		} else {
			kept.fills = append(kept.fills, f)
		}
	}
	old.score = s.scoreOf(old.fills)
	b := branching{search: s, best: old, until: s.ticks + roundSteps, seen: map[string]score{}, even: true}
	b.from(pieces, found{})
	better := b.best.compare(old.score) < 0
	s.best = found{fills: append(kept.fills, b.best.fills...)}
	s.best.score = s.scoreOf(s.best.fills)
	return better
}

// unevenness grows as some cycles are filled more and others less.
func (s *search) unevenness(fills []counts) float64 {
	sum := 0.0
	for _, f := range fills {
		sum += s.worth(f) * s.worth(f)
	}
	return sum
}
