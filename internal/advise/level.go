package advise

import (
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// About is how high the bath probably stands now. It is an estimate.
type About struct {
	VolumeL units.Volume
	U       units.Volume
	Low     *heat.Falls // when it falls below the heater's low mark; nil where not in sight
}

// about reckons the level from the last look on.
func (x *Snapshot) about() *About {
	t := x.Bath.Tank
	book, ok := x.book()
	if !ok {
		return nil
	}
	l, ok := book.Level(liquor(x.Life), x.Now)
	if !ok {
		return nil
	}
	a := &About{VolumeL: l.Now.Volume, U: l.U}
	if falls, ok := book.Falls(l, t.LowL); ok && t.LowL > 0 {
		a.Low = &falls
	}
	return a
}

// book accounts for the water of the open fill. It is false where heat cannot
// reckon with the tank.
func (x *Snapshot) book() (heat.Book, bool) {
	perDay, err := x.vessel.PerDay(routine(x.State.Site, x.Set()), room)
	return heat.Book{Mark: x.Bath.Tank.VolumeL, Look: x.vessel.Look(), PerDay: perDay, Unsure: 0.5}, err == nil
}

// liquor is the log of a fill as what happened to its water and soap.
func liquor(l bath.Life) []heat.Event {
	var out []heat.Event
	add := func(at time.Time, what heat.What, v units.Volume) {
		out = append(out, heat.Event{At: at, What: what, Volume: v})
	}
	for _, e := range l.Entries {
		switch b := e.Body.(type) {
		case *bath.Fill:
			add(e.At, heat.Filled, b.VolumeL)
		case *bath.Dose:
			add(e.At, heat.Dosed, b.VolumeL)
		case *bath.Spill:
			add(e.At, heat.CarriedOut, b.VolumeL)
		case *bath.Water:
			look := heat.LookedLost
			if b.Cause == bath.CauseEvaporation {
				look = heat.Looked
			}
			add(e.At, look, missing(b))
			add(e.At, heat.Poured, b.VolumeL)
		}
	}
	return out
}
