package load

import (
	"cmp"
	"slices"

	"bathside/internal/units"
)

// rank orders soils, the lightest first.
func (s Soil) rank() int { return slices.Index([]Soil{Light, Normal, Heavy}, s) }

// arrangeTries is how many orders are tried.
const arrangeTries = 3_000

// arrange puts the washes in order and says what comes back when. What is
// needed comes first; then the least soiled before the dirtier, so that the
// bath stays clean for as many as can be; then the first complete set; then
// whatever brings pieces back soonest.
func (r Request) arrange(plan *WashPlan) {
	slices.SortStableFunc(plan.Washes, func(a, b Wash) int {
		return cmp.Or(cmp.Compare(a.Dirtiest.rank(), b.Dirtiest.rank()), cmp.Compare(a.Minutes, b.Minutes))
	})
	best := r.timeline(plan.Washes)
	slices.SortStableFunc(plan.Washes, func(a, b Wash) int { return cmp.Compare(r.needed(b), r.needed(a)) })
	if t := r.timeline(plan.Washes); t.compare(&best) < 0 {
		best = t
	}
	r.improve(&best)
	plan.Washes = best.washes
	plan.Needs, plan.Sets, plan.AllBack = best.needsMet(), best.sets(), best.last
	if n := len(plan.Washes); n > 0 {
		plan.BathDone = plan.Washes[n-1].Out
	}
}

// needed is how many pieces in a wash are among what is needed first.
func (r Request) needed(w Wash) int {
	n := 0
	for _, b := range w.Baskets {
		for _, line := range b.Lines {
			if r.needs(r.Batches[line.Batch].Item.ID) {
				n += line.N
			}
		}
	}
	return n
}

// improve swaps two washes as long as that helps.
func (r Request) improve(best *timeline) {
	tries := 0
	for better := true; better; {
		better = false
		for i := range best.washes {
			for j := range i {
				if tries++; tries > arrangeTries {
					return
				}
				washes := slices.Clone(best.washes)
				washes[i], washes[j] = washes[j], washes[i]
				if t := r.timeline(washes); t.compare(best) < 0 {
					*best, better = t, true
				}
			}
		}
	}
}

// compare is below 0 where t is the better order. It is exact, so that
// improving on it comes to an end.
func (t *timeline) compare(u *timeline) int {
	return cmp.Or(
		cmp.Compare(t.late(), u.late()),
		cmp.Compare(t.outOfOrder(), u.outOfOrder()),
		cmp.Compare(t.firstSet(), u.firstSet()),
		cmp.Compare(t.sum, u.sum),
	)
}

// outOfOrder counts the pairs of washes of which the dirtier comes first.
func (t *timeline) outOfOrder() int {
	pairs := 0
	for i, w := range t.washes {
		for _, earlier := range t.washes[:i] {
			pairs += one(earlier.Dirtiest.rank() > w.Dirtiest.rank())
		}
	}
	return pairs
}

func (t *timeline) firstSet() units.Span {
	if sets := t.sets(); len(sets) > 0 {
		return sets[0]
	}
	return 0
}
