package heat

import (
	"math"

	"bathside/internal/units"
)

// MakeUp is a stretch between two looks at the mark: the water that was missing
// for evaporation at its end, and what an open bath would have lost meanwhile.
type MakeUp struct {
	Missing units.Volume
	Open    units.Volume // by Evaporation or PerDay, without the lid
}

const (
	// lookHeight is how well a level is read off against its mark, in metres of
	// water. From memory.
	lookHeight = 0.005

	// leastOpen is what an open bath must have lost for a stretch to count.
	leastOpen = units.Volume(1)

	// habit is how far one stretch differs from the next for the same lid: it is
	// opened more often, the room is drier. From memory.
	habit = 0.30
)

// Look is the standard uncertainty of a level that somebody looked at, 5 mm of
// water: 1.5 L under 0.30 m².
func (v Vessel) Look() units.Volume { return units.Volume(1000 * lookHeight * float64(v.Surface)) }

// LearnLid is the part of an open bath's vapour that v gives off, from the
// water that its station added. With nothing added yet it is what is assumed:
// 0.10 under a lid, 1 without. A stretch that fits none of the others is left
// out, and so is one too short to be seen. It stays within 0.01 and 1 under a
// lid.
func (v Vessel) LearnLid(seen []MakeUp) Estimate {
	prior, most := item{1, 0.30}, 3.0 // the formula is good to 20 %, in a room without a draught
	if v.Lid {
		prior, most = item{lidLeak, 0.20}, 1 // from memory: a lid that is up half of the day is at 0.5
	}
	items := v.shares(seen)
	mean, sd, used := fuse(prior, items)
	return Estimate{Value: min(max(mean, 0.01), most), U: sd, Used: used, Left: len(seen) - used}
}

// shares is the part that each stretch speaks for. How far habits carry is
// taken from all of them together, so that a dry stretch weighs no more than a
// wet one.
func (v Vessel) shares(seen []MakeUp) []item {
	var kept []MakeUp
	var missing, open float64
	for _, m := range seen {
		if m.Missing >= 0 && m.Open > v.Look() && m.Open >= leastOpen {
			kept = append(kept, m)
			missing += float64(m.Missing)
			open += float64(m.Open)
		}
	}
	var items []item
	for _, m := range kept {
		looks := math.Sqrt2 * float64(v.Look()/m.Open) // one at either end
		items = append(items, item{float64(m.Missing / m.Open), math.Hypot(looks, habit*missing/open)})
	}
	return items
}
