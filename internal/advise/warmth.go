package advise

import (
	"fmt"
	"math"
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

// heatBy: a bath that is heated for washing is switched on in time.
func heatBy(x *Snapshot) []Action {
	site := x.State.Site
	hot, err := time.Parse("15:04", site.HotBy)
	if err != nil || !x.Open || !x.inService() || site.KeptHot != nil && *site.KeptHot || x.warmSince(6*time.Hour) {
		return none
	}
	y, m, d := x.Now.Date()
	by := time.Date(y, m, d, hot.Hour(), hot.Minute(), 0, 0, x.Now.Location())
	if by.Before(x.Now) {
		by = by.AddDate(0, 0, 1)
	}
	from := x.coolNow(by)
	took, err := x.vessel.WarmUp(from, x.Set(), x.vessel.power, room)
	if err != nil {
		return none
	}
	on := by.Add(-took)
	if x.Now.Before(on.Add(-ahead)) {
		return none
	}
	return one(Action{
		ID: "heat-by", Urgency: Today, Due: on, Kind: "temp", Say: fmt.Sprintf("Heater on at %s for %s", x.Clock(on), x.Clock(by)),
		Why: fmt.Sprintf("from about %s to %s takes about %s", x.Sys.Temp(from), x.Sys.Temp(x.Set()), units.SpanOf(took).About()),
		From: []string{
			fmt.Sprintf("the heater gives about %s, and the tank loses what it lost before, as learned from the logged temperatures", x.Sys.Text(x.vessel.power)),
			"the room is taken to be at " + x.Sys.Temp(room.Air) + ", from memory",
		},
	})
}

// ahead is how long before it is switched on the heater is spoken of.
const ahead = 4 * time.Hour

// warmSince reports whether the bath was measured warm so lately that it still
// is.
func (x *Snapshot) warmSince(d time.Duration) bool {
	return x.warm() && x.Now.Sub(x.Temp.At) < d && !x.heaterOff()
}

// coolNow is about how warm the bath will be by then with its heater off: cooled
// from the last measured temperature.
func (x *Snapshot) coolNow(by time.Time) units.Temperature {
	if x.Temp == nil {
		return room.Air
	}
	cool := x.vessel.After(x.Temp.C, by.Sub(x.Temp.At), room)
	if math.IsNaN(float64(cool)) {
		return room.Air
	}
	return min(cool, x.Set())
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
