package heat

import (
	"math"

	"bathside/internal/units"
)

const (
	// readSD is how well a logged temperature is that of the bath, in K: a whole
	// degree F, the probe, a bath not quite mixed. From memory.
	readSD = 0.35

	leastFall = 3.0 // K, of a stretch that says something of the loss
	leastRise = 5.0 // K, of the power
	nearRest  = 5   // K above where it comes to rest a bath tells no more
)

// cooling is how many times faster than reckoned a stretch cooled. Each
// temperature stands for the time that the model takes to get there, and the
// slope of that time over the real one is the factor: for a loss that is
// straight in T this is the line through ln(T − Ta).
func (v Vessel) cooling(stretch []Sample, room Room) (item, bool) {
	rest := float64(v.settles(0, room)) + nearRest
	start := stretch[0]
	var points []mark
	lowest := float64(start.Bath)
	for _, s := range stretch {
		t := float64(s.Bath)
		if t < rest {
			continue
		}
		lowest = min(lowest, t)
		sd := readSD / math.Abs(v.rate(t, 0, room))
		points = append(points, mark{s.At.Sub(start.At).Seconds(), v.coolingTime(start.Bath, s.Bath, room), sd})
	}
	if len(points) < 2 || float64(start.Bath)-lowest < leastFall {
		return item{}, false
	}
	return slope(points), true
}

// coolingTime is the seconds from one temperature to the other, below 0 where
// the other is warmer.
func (v Vessel) coolingTime(from, to units.Temperature, room Room) float64 {
	if to > from {
		return -v.coolingTime(to, from, room)
	}
	if to == from {
		return 0
	}
	d, _ := v.reach(from, to, 0, room) // both above rest: it gets there
	return d.Seconds()
}

// heating is the power of a stretch with the heater on, in watts: the slope of
// the heat that the bath holds and has lost, over time. The power goes with the
// loss that it was reckoned with, and is as unsure as that.
func (v Vessel) heating(stretch []Sample, room Room, loss Estimate) (item, bool) {
	first, last := stretch[0], stretch[len(stretch)-1]
	if float64(last.Bath-first.Bath) < leastRise {
		return item{}, false
	}
	var points []mark
	var held, lost float64
	for i, s := range stretch {
		if i > 0 {
			before := stretch[i-1]
			held += v.capacity(float64(before.Bath+s.Bath)/2) * float64(s.Bath-before.Bath)
			lost += v.meanLoss(before.Bath, s.Bath, room) * s.At.Sub(before.At).Seconds()
		}
		points = append(points, mark{s.At.Sub(first.At).Seconds(), held + loss.Value*lost, readSD * v.capacity(float64(s.Bath))})
	}
	f := slope(points)
	f.sd = math.Hypot(f.sd, loss.U*lost/last.At.Sub(first.At).Seconds())
	return f, true
}

// meanLoss is that of a bath on its straight way between two temperatures.
func (v Vessel) meanLoss(from, to units.Temperature, room Room) float64 {
	const parts = 8
	var sum float64
	for i := range parts {
		part := (float64(i) + 0.5) / parts
		sum += v.loss(float64(from)+part*float64(to-from), room)
	}
	return sum / parts
}
