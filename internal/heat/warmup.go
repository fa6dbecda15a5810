package heat

import (
	"math"
	"time"

	"bathside/internal/units"
)

// WarmUp is how long heater takes to warm the bath, losses counted. It is as
// good as the figures of the vessel are. A bath that is warm enough takes no
// time.
//
// Where the heater cannot do it the error is a *TooWeak. Figures that are none
// of a bath are refused in one sentence: temperatures outside 0 to 80 °C, no
// water, no power.
func (v Vessel) WarmUp(from, to units.Temperature, heater units.Power, room Room) (time.Duration, error) {
	if err := v.check(room, from, to); err != nil {
		return 0, err
	}
	if err := checkHeater(heater); err != nil {
		return 0, err
	}
	if from >= to {
		return 0, nil
	}
	d, ok := v.reach(from, to, heater, room)
	if !ok {
		return 0, &TooWeak{Vessel: v, Heater: heater, To: to, Holds: v.settles(heater, room)}
	}
	return d, nil
}

// CoolTo is how long the bath takes to cool with the heater off. A bath that is
// cool enough takes no time. Where the room is too warm the error is a
// *TooWarm; other errors are as for WarmUp.
func (v Vessel) CoolTo(from, to units.Temperature, room Room) (time.Duration, error) {
	if err := v.check(room, from, to); err != nil {
		return 0, err
	}
	if from <= to {
		return 0, nil
	}
	d, ok := v.reach(from, to, 0, room)
	if !ok {
		return 0, &TooWarm{To: to, Settles: v.settles(0, room)}
	}
	return d, nil
}

// After is how warm the bath is a time d after it was at from, with the heater
// off. It is NaN where CoolTo would refuse vessel, from or room, or d is
// negative.
func (v Vessel) After(from units.Temperature, d time.Duration, room Room) units.Temperature {
	if v.check(room, from) != nil || d < 0 {
		return units.Temperature(math.NaN())
	}
	t, left := float64(from), d.Seconds()
	for left > 0 {
		rate := v.rate(t, 0, room)
		if math.Abs(rate) < standstill {
			break
		}
		step := min(left, v.stride(t, rate, 0, room))
		t = v.step(t, step, 0, room)
		left -= step
	}
	return units.Temperature(t)
}

// RisePerMinute is the most by which heater warms so much water in a minute:
// losses and the steel of the tank are left out, as a limit needs it.
// It is 0.38 °C for 6 kW in 60 gal.
func RisePerMinute(water units.Volume, heater units.Power) units.Delta {
	const leastHeat = 40 // °C, where water takes the least heat for a degree
	return units.Delta(60 * float64(heater) / (waterMass(water) * SpecificHeat(leastHeat)))
}
