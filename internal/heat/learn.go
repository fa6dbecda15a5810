package heat

import (
	"math"
	"time"

	"bathside/internal/units"
)

// Station is what is known of a bath before its log has spoken: its vessel, the
// room, the power on the heater's plate and where its thermostat is set. Without
// Set no power is learned: nobody knows when the heater was really on.
type Station struct {
	Vessel Vessel
	Room   Room
	Plate  units.Power
	Set    units.Temperature
}

// Fit is what the log of a station says of its bath.
type Fit struct {
	Loss   Estimate // times what the figures of the vessel give
	Heater Estimate // watts
}

// Vessel is v with the loss that was learned.
func (f Fit) Vessel(v Vessel) Vessel {
	v.LossFactor = f.Loss.Value
	return v
}

// Power is what the heater puts into the bath.
func (f Fit) Power() units.Power { return units.Power(f.Heater.Value) }

// UA is the loss of the bath for a degree above the room, in W/K, as learned
// for v. It grows with the temperature, and is none where the bath is as warm
// as the room.
func (f Fit) UA(v Vessel, bath units.Temperature, room Room) Estimate {
	v.LossFactor = 0
	e := f.Loss
	perKelvin := float64(v.Loss(bath, room)) / float64(bath-room.Air)
	e.Value *= perKelvin
	e.U *= math.Abs(perKelvin)
	return e
}

// What is known before, and how far stretches of one bath differ: parts of the
// figure. From memory.
const (
	lossUnsure   = 0.6  // a bare or an insulated tank, a lid that fits or not
	lossScatter  = 0.15 // a room 5 °C warmer or cooler, a lid ajar
	powerUnsure  = 0.2  // 208 V on a heater for 240 V leaves 75 % of the plate
	powerScatter = 0.05
)

// Learn reads loss and power out of the log of one fill: the loss out of
// stretches with the heater off that fell by 3 °C or more, the power out of
// stretches with it on that rose by 5 °C or more and ended below the set point.
// A stretch counts where the log says so of the heater at both of its ends.
// With few of them the figures stay near those of s, and their uncertainty
// says so. A room cooler than s says looks like more loss.
//
// Refills, gear put in and lids left up are cut away where they show, and
// outvoted where they do not. Figures of s that are none of a bath are refused
// in one sentence; samples that are none are left out.
func (s Station) Learn(log []Sample) (Fit, error) {
	if err := s.Vessel.check(s.Room); err != nil {
		return Fit{}, err
	}
	if err := checkHeater(s.Plate); err != nil {
		return Fit{}, err
	}
	s.Vessel.LossFactor = 0
	log = tidy(liquid(log))
	fit := Fit{Loss: s.loss(log)}
	fit.Heater = s.power(log, fit.Loss)
	return fit, nil
}

func liquid(log []Sample) []Sample {
	var kept []Sample
	for _, s := range log {
		if s.Bath >= coldest && s.Bath <= hottest {
			kept = append(kept, s)
		}
	}
	return kept
}

func (s Station) loss(log []Sample) Estimate {
	var found []item
	left := 0
	for _, stretch := range stretches(log, Off, s.cools) {
		f, ok := s.Vessel.cooling(stretch, s.Room)
		switch {
		case !ok: // too short to say anything
		case f.value <= 0:
			left++
		default:
			found = append(found, f)
		}
	}
	return ratio(1, lossUnsure, lossScatter, found, left)
}

func (s Station) power(log []Sample, loss Estimate) Estimate {
	var found []item
	left := 0
	for _, stretch := range stretches(log, On, s.warms) {
		f, ok := s.Vessel.heating(stretch, s.Room, loss)
		switch part := f.value / float64(s.Plate); {
		case !ok:
		case part < weakest || part > strongest:
			left++
		default:
			found = append(found, f)
		}
	}
	return ratio(float64(s.Plate), powerUnsure, powerScatter, found, left)
}

// ratio fuses figures that are uncertain by parts of themselves: by their
// logarithms. found must be above 0.
func ratio(prior, unsure, scatter float64, found []item, left int) Estimate {
	logs := make([]item, len(found))
	for i, f := range found {
		logs[i] = item{math.Log(f.value), math.Hypot(f.sd/f.value, scatter)}
	}
	mean, sd, used := fuse(item{math.Log(prior), unsure}, logs)
	value := math.Exp(mean)
	return Estimate{Value: value, U: value * sd, Used: used, Left: left + len(found) - used}
}

// What two neighbours in the log can be and still belong together.
const (
	slack      = units.Temperature(1) // how far two readings of one bath differ: whole °F, a badly mixed bath
	longestOff = 36 * time.Hour
	longestOn  = 6 * time.Hour
	weakest    = 0.2 // of the plate's power: less is no heater that works
	strongest  = 1.5
	belowSet   = units.Temperature(2) // where a thermostat may cut in
)

// cools reports whether b can be a, left alone: no warmer, and no cooler than an
// open, bare tank gets in half as much time again.
func (s Station) cools(a, b Sample) bool {
	d := b.At.Sub(a.At)
	worst := s.Vessel
	worst.Lid, worst.Insulated = false, false
	return d <= longestOff && b.Bath <= a.Bath+slack && b.Bath >= worst.After(a.Bath, d*3/2, s.Room)-slack
}

// warms reports whether b can be a, heated all the time.
func (s Station) warms(a, b Sample) bool {
	d := b.At.Sub(a.At)
	rise := units.Temperature(float64(RisePerMinute(s.Vessel.Water, s.Plate)) * d.Minutes()) // by the plate
	got := b.Bath - a.Bath
	return d <= longestOn && b.Bath < s.Set-belowSet && got <= strongest*rise+slack && got >= weakest*rise-slack
}
