package load

import (
	"cmp"
	"slices"
)

// firstFits packs by first fit in some thirty orders, each weighing time
// against size differently, and returns the best.
func (s *search) firstFits(all counts) found {
	var best found
	for run := range 30 {
		f := s.firstFit(all, s.weighed(run))
		if best.fills == nil || f.compare(best.score) < 0 {
			best = f
		}
		if !s.tick() {
			break
		}
	}
	return best
}

// weighed is the order of the pieces for a run: from size alone to time alone,
// and further on with a shift for each piece that differs from run to run.
func (s *search) weighed(run int) []int {
	longest := s.pieces[0].time
	weight := func(i int) float64 {
		p, byTime := s.pieces[i], float64(run%10)/9
		time := 0.0
		if longest > 0 {
			time = p.time / longest
		}
		return byTime*time + (1-byTime)*p.share + 0.1*float64(run/10)*scatter(i, run)
	}
	order := make([]int, len(s.pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(weight(b), weight(a)) })
	return order
}

// scatter is a number from 0 to 1 that looks like chance and is the same each
// time.
func scatter(i, run int) float64 {
	x := uint32(i+1)*2654435761 ^ uint32(run+1)*2246822519
	x ^= x >> 15
	x *= 2246822519
	x ^= x >> 13
	return float64(x) / (1 << 32)
}

// firstFit puts each piece into the first cycle that it fits.
func (s *search) firstFit(all counts, order []int) found {
	var f found
	for _, i := range order {
		at := 0 // like pieces need not be tried where the last one did not fit
		for range all[i] {
			at = s.place(&f, i, at)
		}
	}
	f.score = s.scoreOf(f.fills)
	return f
}

// place puts one piece into cycle at or a later one, and says which.
func (s *search) place(f *found, i, at int) int {
	for ; at < len(f.fills); at++ {
		f.fills[at][i]++
		if s.fits(f.fills[at]) {
			return at
		}
		f.fills[at][i]--
	}
	alone := make(counts, len(s.pieces))
	alone[i] = 1
	f.fills = append(f.fills, alone)
	return at
}

func (s *search) scoreOf(fills []counts) score {
	total := score{cycles: len(fills)}
	for _, f := range fills {
		total.time += s.timeOf(f)
	}
	return total
}
