package advise

import (
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// nearSet is how far below the set point still counts as warm.
const nearSet = units.Temperature(3)

// room is the air about the bath, until a station can say what its own is
// (from memory).
var room = heat.Room{Air: 20, RH: 0.5}

// mains is how warm water runs in where nobody measured it (from memory).
const mains = units.Temperature(15)

// heatUp is where a warm-up starts from, and when: the last measured
// temperature, or that of the water that ran in. known is false where nobody
// measured either.
func (x *Snapshot) heatUp() (from units.Temperature, since time.Time, known bool) {
	if x.Temp != nil {
		return x.Temp.C, x.Temp.At, true
	}
	since = x.Life.Fill.At
	if d := bath.Of[*bath.Dose](x.Life.Entries); len(d) > 0 {
		since = d[0].At // the heater goes on when the soap is in
	}
	if w := x.Life.Fill.Is.WaterC; w != nil {
		return *w, since, true
	}
	return mains, since, false
}

// warm reports whether the bath was measured near its set point.
func (x *Snapshot) warm() bool { return x.Temp != nil && x.Temp.C >= x.Set()-nearSet }

// heaterOff reports whether somebody logged it as off.
func (x *Snapshot) heaterOff() bool {
	return x.Temp != nil && x.Temp.HeaterOn != nil && !*x.Temp.HeaterOn
}

// Vessel is a tank as the heat model sees it, with v of liquid in it.
func Vessel(t bath.Tank, v units.Volume) heat.Vessel {
	w := heat.NewVessel(v)
	if t.SurfaceM2 > 0 {
		w.Surface = t.SurfaceM2
	}
	w.Lid, w.Insulated = t.Lid != nil && *t.Lid, t.Insulated != nil && *t.Insulated
	return w
}

// ReadyAt is about when the bath reaches its set point with the heater on
// since it was last measured, or else since the soap went in. It is false where
// the bath is there, where its heater was logged as off, and where it never
// gets there.
func (x *Snapshot) ReadyAt() (time.Time, bool) {
	if !x.Open || x.warm() || x.heaterOff() {
		return time.Time{}, false
	}
	from, since, _ := x.heatUp()
	d, err := x.vessel.WarmUp(from, x.Set(), x.vessel.power, room)
	if err != nil {
		return time.Time{}, false
	}
	return since.Add(d), true
}
