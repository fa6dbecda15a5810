package advise

import (
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// vessel is the tank of a fill as its own log has taught it, with what the
// heater puts into it.
type vessel struct {
	heat.Vessel
	power units.Power
}

// mostSamples is how many measured temperatures are learned from, the last
// ones.
const mostSamples = 200

// learnVessel learns loss and power from the temperatures of the fill.
func learnVessel(s bath.Setting, t bath.Tank, l bath.Life) vessel {
	v := vessel{Vessel(t, l.Fill.Is.VolumeL), t.Heater()}
	var log []heat.Sample
	for _, m := range bath.Of[*bath.Temp](l.Entries) {
		log = append(log, heat.Sample{At: m.At, Bath: m.Is.BathC, Heater: switched(m.Is.Heat)})
	}
	log = log[max(0, len(log)-mostSamples):]
	fit, err := heat.Station{Vessel: v.Vessel, Room: room, Plate: v.power, Set: l.Set(t)}.Learn(log)
	if err != nil {
		return v // a tank that heat cannot reckon with
	}
	v.power = fit.Power()
	v.Vessel = fit.Vessel(v.Vessel)
	v.LidShare = v.LearnLid(makeUps(s, v.Vessel, t, l)).Value
	return v
}

func switched(on *bool) heat.Switch {
	switch {
	case on == nil:
		return heat.Unsaid
	case *on:
		return heat.On
	}
	return heat.Off
}

// How a bath spends its day where nobody says, from memory: heated for washing
// it is hot for so long, and the lid is up for so long.
const (
	heatedHours = 5
	openHours   = 1
)

func routine(s bath.Setting, set units.Temperature) heat.Routine {
	r := heat.Routine{Hot: set, Idle: room.Air, Heated: units.Span(heatedHours * 3600), Open: units.Span(openHours * 3600)}
	if s.KeptHot != nil && *s.KeptHot {
		r.Heated = units.Span(24 * 3600)
	}
	return r
}

// makeUps are the stretches between two looks at the mark, with what was missing
// for vapour alone.
func makeUps(s bath.Setting, v heat.Vessel, t bath.Tank, l bath.Life) []heat.MakeUp {
	open := v
	open.Lid, open.LidShare = false, 0
	perDay, err := open.PerDay(routine(s, l.Set(t)), room)
	if err != nil {
		return nil
	}
	var out []heat.MakeUp
	last := l.Fill.At
	for _, w := range bath.Of[*bath.Water](l.Entries) {
		days := units.Volume(w.At.Sub(last).Hours() / 24)
		if last = w.At; w.Is.Cause == bath.CauseEvaporation {
			out = append(out, heat.MakeUp{Missing: missing(w.Is), Open: perDay * days})
		}
	}
	return out
}

// missing is what was not in the bath when the mark was looked at.
func missing(w *bath.Water) units.Volume {
	if w.BelowL != nil {
		return *w.BelowL
	}
	return w.VolumeL
}

// About is how high the bath probably stands now. It is an estimate.
type About struct {
	VolumeL units.Volume
	U       units.Volume
	Low     *heat.Falls // when it falls below the heater's low mark; nil where not in sight
}

// about reckons the level from the last look on.
func (x *Snapshot) about() *About {
	t := x.Bath.Tank
	perDay, err := x.vessel.PerDay(routine(x.State.Site, x.Set()), room)
	if err != nil {
		return nil
	}
	book := heat.Book{Mark: t.VolumeL, Look: x.vessel.Look(), PerDay: perDay, Unsure: 0.5}
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

// slowWarmUp: a warm-up slower than half as long again points at the heater or
// the level.
func slowWarmUp(x *Snapshot) []Action {
	temps := bath.Of[*bath.Temp](x.Life.Entries)
	if !x.Open || len(temps) < 2 {
		return none
	}
	from, to := temps[len(temps)-2], temps[len(temps)-1]
	rose := to.Is.BathC-from.Is.BathC >= leastRise && to.Is.BathC < x.Set()-1
	if switched(from.Is.Heat) != heat.On || switched(to.Is.Heat) == heat.Off || !rose || to.At.Sub(from.At) > longestWarmUp || x.Now.Sub(to.At) > checkStands {
		return none
	}
	expected, err := x.vessel.WarmUp(from.Is.BathC, to.Is.BathC, x.Bath.Tank.Heater(), room)
	if err != nil {
		return none
	}
	say, slow := heat.SlowWarmUp(to.At.Sub(from.At), expected)
	if !slow {
		return none
	}
	return one(Action{ID: "slow-warm-up", Urgency: Soon, Kind: "duty", Preset: map[string]string{"what": bath.DutyInspection},
		Say: "Look at the heater: it warms slowly", Why: say})
}

const (
	leastRise     = units.Temperature(10) // what a warm-up must have risen to be judged
	longestWarmUp = 12 * time.Hour        // beyond it nobody knows whether the heater was on throughout (from memory)
)
