package advise

import (
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
	if v.Lid { // an open bath may lose more than reckoned, and no lid lets through more than all
		v.LidShare = v.LearnLid(makeUps(s, v.Vessel, t, l)).Value
	}
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
