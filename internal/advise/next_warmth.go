package advise

import (
	"fmt"
	"math"
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// heatBy: a bath that is heated for washing is switched on in time.
func heatBy(x *Snapshot) []Action {
	site := x.State.Site
	hour, minute, err := units.ParseClock(site.HotBy)
	if err != nil || !x.Open || !x.inService() || site.KeptHot != nil && *site.KeptHot || x.warmSince(6*time.Hour) {
		return none
	}
	y, m, d := x.Now.Date()
	by := time.Date(y, m, d, hour, minute, 0, 0, x.Now.Location())
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
