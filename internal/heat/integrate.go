package heat

import (
	"math"
	"time"

	"bathside/internal/units"
)

const (
	// A step of the integration moves the bath by no more than widestStep
	// kelvin and closes no more than nearest of its distance from rest, so that
	// a puddle and a pool take as many steps as a bath.
	widestStep = 1.0
	nearest    = 0.1

	// standstill is the rate, in K/s, below which a bath has come to rest: a
	// tenth of a millikelvin a day.
	standstill = 1e-9
)

// filledAt is the temperature at which the volume of a bath is measured.
const filledAt = units.Temperature(15)

// steelHeat is the specific heat of stainless steel, J/(kg·K). From memory.
const steelHeat = 500

func waterMass(v units.Volume) float64 { return float64(v) / 1000 * Density(filledAt) }

// capacity is the heat that warms the bath with its tank by a kelvin, in J.
func (v Vessel) capacity(bath float64) float64 {
	return waterMass(v.Water)*SpecificHeat(units.Temperature(bath)) + float64(v.Steel)*steelHeat
}

// rate is how fast the bath warms, in K/s.
func (v Vessel) rate(bath float64, heater units.Power, room Room) float64 {
	return (float64(heater) - v.loss(bath, room)) / v.capacity(bath)
}

// stride is how many seconds to go at once from a bath that warms at rate.
func (v Vessel) stride(bath, rate float64, heater units.Power, room Room) float64 {
	perKelvin := math.Abs(v.rate(bath+1, heater, room) - rate) // 1/s
	return min(widestStep/math.Abs(rate), nearest/perKelvin)
}

// step is the temperature after so many seconds, by the classical Runge-Kutta
// method of fourth order.
func (v Vessel) step(bath, seconds float64, heater units.Power, room Room) float64 {
	k1 := v.rate(bath, heater, room)
	k2 := v.rate(bath+seconds/2*k1, heater, room)
	k3 := v.rate(bath+seconds/2*k2, heater, room)
	k4 := v.rate(bath+seconds*k3, heater, room)
	return bath + seconds/6*(k1+2*k2+2*k3+k4)
}

// reach is how long the bath is on its way, up or down; false where it comes to
// rest before.
func (v Vessel) reach(from, to units.Temperature, heater units.Power, room Room) (time.Duration, bool) {
	way := math.Copysign(1, float64(to-from))
	t, end := float64(from), float64(to)
	var seconds float64
	for {
		rate := v.rate(t, heater, room)
		if rate*way < standstill {
			return 0, false
		}
		step := v.stride(t, rate, heater, room)
		next := v.step(t, step, heater, room)
		if (next-end)*way >= 0 {
			// The last step in part: along its chord, then put right.
			step *= (end - t) / (next - t)
			near := v.step(t, step, heater, room)
			seconds += step + (end-near)/v.rate(near, heater, room)
			return units.Span(seconds).Duration(), true
		}
		t = next
		seconds += step
	}
}

// settles is where the bath comes to rest, at most 80 °C: there the heater just
// makes up for the loss.
func (v Vessel) settles(heater units.Power, room Room) units.Temperature {
	low, high := float64(coldestAir)-10, float64(hottest) // an open bath rests below the air
	for range 50 {
		mid := (low + high) / 2
		if v.loss(mid, room) < float64(heater) {
			low = mid
		} else {
			high = mid
		}
	}
	return units.Temperature(low)
}
