package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
)

// redTag: nothing is started in a tagged bath.
func redTag(x *Snapshot) []Action {
	t := x.Bath.Tag
	if t == nil {
		return none
	}
	a := Action{
		ID: "red-tag", Urgency: Now, Kind: "release",
		Say: "Do not use the bath; wake a gear officer",
		Why: fmt.Sprintf("tagged by %s, %s: %s", t.By, x.Clock(t.At), t.Why),
	}
	if t.Kind == bath.HoldContaminated {
		a.Say = "Do not use the bath: drain and hold the liquid"
		a.Why += "; a filter run clears nothing"
	}
	return one(a)
}

// clockBehind: an entry from the future says that this clock, or the one that
// wrote it, is wrong.
func clockBehind(x *Snapshot) []Action {
	if !x.State.Logged.After(x.Now.Add(5 * time.Minute)) {
		return none
	}
	return one(Action{
		ID: "clock", Urgency: Now,
		Say: "Check this workstation's date and time",
		Why: fmt.Sprintf("the last line was written %s, and it is %s here now", x.State.Logged.In(x.Now.Location()).Format("2 Jan 2006 15:04"), x.Now.Format("2 Jan 2006 15:04")),
	})
}

// tooHot: a bath above its band stops everything.
func tooHot(x *Snapshot) []Action {
	if x.Temp == nil || x.Temp.Is.BathC <= x.Bath.Tank.Max()+0.5 {
		return none
	}
	at, most := x.Sys.TempPair(x.Temp.Is.BathC, x.Bath.Tank.Max())
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
	room := x.Level.VolumeL - low
	near := (x.Bath.Tank.VolumeL - low) / 4
	a := Action{ID: "low-mark", Kind: "water", Why: fmt.Sprintf("%s stood in it %s, the heater needs %s", x.Sys.Volume(x.Level.VolumeL), x.Date(x.Level.At), x.Sys.Volume(low))}
	switch {
	case room <= 0:
		a.Urgency, a.Say = Now, "Heater off; fill up to the mark"
	case room <= near:
		a.Urgency, a.Say = Today, "Fill up to the mark: the heater's low mark is near"
	default:
		return none
	}
	return one(a)
}
