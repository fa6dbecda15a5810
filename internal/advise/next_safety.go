package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// redTag: nothing is started in a tagged bath.
func redTag(x *Snapshot) []Action {
	t := x.Bath.Tag
	if t == nil {
		return none
	}
	a := Action{
		ID: "red-tag", Urgency: Now, Kind: "release",
		Say: "Do not use the bath: wake a gear officer",
		Why: fmt.Sprintf("tagged by %s, %s: %s", t.By, x.Clock(t.At), t.Why),
	}
	if x.contaminated() && x.Open { // it cannot be lifted before the drain
		a.Kind, a.Preset = "drain", map[string]string{"route": bath.RouteHold}
		a.Why += "; heater off, drain it and hold the liquid: filtering clears nothing"
	}
	return one(a)
}

// contaminated reports whether a red tag says that what is in the bath, its
// sludge and its cartridges are held for the authority.
func (x *Snapshot) contaminated() bool {
	t := x.Bath.Tag
	return t != nil && t.Kind == bath.HoldContaminated
}

// clockBehind: an entry from the future says that this clock, or the one that
// wrote it, is wrong.
func clockBehind(x *Snapshot) []Action {
	if !x.State.Logged.After(x.Now.Add(5 * time.Minute)) {
		return none
	}
	return one(Action{
		ID: "clock", Urgency: Now,
		Say: "Check the date and time here",
		Why: fmt.Sprintf("the log book has a line written %s, and here it is %s", x.Times.FullClock(x.Local(x.State.Logged)), x.Times.FullClock(x.Now)),
	})
}

// overBand is how far above its band a bath may be measured: limits are
// compared with half a degree of margin.
const overBand = units.Temperature(0.5)

// tooHot: a bath above its band stops everything.
func tooHot(x *Snapshot) []Action {
	if x.Temp == nil || x.Temp.C <= x.Bath.Tank.Max()+overBand {
		return none
	}
	at, most := x.Sys.TempPair(x.Temp.C, x.Bath.Tank.Max())
	return one(Action{
		ID: "too-hot", Urgency: Now, Kind: "temp",
		Say: "Heater off, gear out, let it cool",
		Why: fmt.Sprintf("the bath was at %s %s, the hottest allowed is %s", at, x.Clock(x.Temp.At), most),
	})
}

// heaterDry: a heater that is on must be under water.
func heaterDry(x *Snapshot) []Action {
	low := x.Bath.Tank.LowL
	if !x.Open || low <= 0 || !x.Level.Known {
		return none
	}
	left := x.Level.VolumeL - low
	near := (x.Bath.Tank.VolumeL - low) / 4
	a := Action{ID: "low-mark", Kind: "water", Why: x.lowSay(low)}
	switch {
	case left <= 0:
		a.Urgency, a.Say = Now, "Heater off; fill up to the mark"
	case left <= near:
		a.Urgency, a.Say = Today, "Fill up to the mark: the heater's low mark is near"
	default:
		return none
	}
	return one(a)
}

// lowSay never shows two equal numbers.
func (x *Snapshot) lowSay(low units.Volume) string {
	stood, needs, seen := x.Sys.Volume(x.Level.VolumeL), x.Sys.Volume(low), x.Date(x.Level.At)
	if stood == needs {
		return fmt.Sprintf("last seen %s at %s, where the heater must be off", seen, stood)
	}
	return fmt.Sprintf("last seen %s at %s, the heater must be off at %s", seen, stood, needs)
}
