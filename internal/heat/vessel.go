// Package heat reckons how fast a bath warms, how fast it cools, and what heat,
// water and soap it loses; and it learns the losses and the heater's power from
// what a station wrote down.
//
// It is one well mixed tank of water with its steel: no layers and no pipes. It
// measures nothing and keeps no state; the caller says how warm the bath is now.
package heat

import (
	"math"

	"bathside/internal/units"
)

// Vessel is a tank with its bath: what holds heat and what loses it. Parts left
// zero are not there: without Surface and Walls nothing is lost.
type Vessel struct {
	Water          units.Volume // as filled, cold
	Steel          units.Mass
	Surface        units.Area // of the liquid
	Walls          units.Area // with the bottom
	Lid, Insulated bool

	LidShare   float64 // of an open bath's vapour, what escapes under the lid; 0 stands for 0.10
	LossFactor float64 // how its loss compares with what these figures give, once learned; 0 stands for 1
}

// Room is the air about the bath: its temperature, and its relative humidity
// from 0 to 1.
type Room struct {
	Air units.Temperature
	RH  float64
}

// NewVessel is the tank that a bath of so much water is likely to have, open
// and bare: 60 gal stand in 40 kg of steel, under 0.30 m² of surface and within
// 1.9 m² of wall and bottom (a box of 0.50 by 0.60 m), and other volumes in a
// tank of the same shape. The box is an assumption, from memory.
func NewVessel(water units.Volume) Vessel {
	scale := math.Pow(float64(water/units.Gallons(60)), 2.0/3)
	return Vessel{
		Water:   water,
		Steel:   units.Mass(40 * scale),
		Surface: units.Area(0.30 * scale),
		Walls:   units.Area(1.9 * scale),
	}
}

// What the parts of a tank let through, in W/(m²·K). From memory.
const (
	lidU       = 2.5
	bareU      = 9.0
	insulatedU = 1.2
)

// lidLeak is the part of the vapour that still escapes under a lid, until the
// station's make-up has told. It is an assumption, from memory.
const lidLeak = 0.10

// share is the part of an open bath's vapour that this one gives off.
func (v Vessel) share() float64 {
	switch {
	case !v.Lid:
		return 1
	case v.LidShare > 0:
		return v.LidShare
	}
	return lidLeak
}

func (v Vessel) factor() float64 {
	if v.LossFactor > 0 {
		return v.LossFactor
	}
	return 1
}

// Loss is what a still bath gives to the room by vapour, by its surface or lid
// and by its walls. It is negative where the room warms the bath, and NaN where
// WarmUp would refuse vessel, bath or room. The vapour is good to about 20 %.
func (v Vessel) Loss(bath units.Temperature, room Room) units.Power {
	if v.check(room, bath) != nil {
		return units.Power(math.NaN())
	}
	return units.Power(v.loss(float64(bath), room))
}

// loss is Loss in watts, unchecked.
func (v Vessel) loss(bath float64, room Room) float64 {
	return v.factor() * (v.vapour(bath, room) + v.top(bath, room) + v.sides(bath, room))
}

// vapour is the heat that leaves with the water that evaporates.
func (v Vessel) vapour(bath float64, room Room) float64 {
	t := units.Temperature(bath)
	return float64(v.evaporation(t, room)) / 3600 * HeatOfEvaporation(t)
}

// top is the dry heat through the surface: convection over a warm plate and
// radiation, or conduction through a lid.
func (v Vessel) top(bath float64, room Room) float64 {
	dT := bath - float64(room.Air)
	if v.Lid {
		return lidU * float64(v.Surface) * dT
	}
	const (
		convection      = 1.52        // W/(m²·K^4/3), from memory
		emissivity      = 0.95        // of water, from memory
		stefanBoltzmann = 5.670374e-8 // W/(m²·K⁴), CODATA 2018
	)
	warm, air := units.Temperature(bath).K(), room.Air.K()
	convected := math.Copysign(convection*math.Pow(math.Abs(dT), 4.0/3), dT)
	radiated := emissivity * stefanBoltzmann * (math.Pow(warm, 4) - math.Pow(air, 4))
	return float64(v.Surface) * (convected + radiated)
}

// sides is the heat through walls and bottom.
func (v Vessel) sides(bath float64, room Room) float64 {
	u := bareU
	if v.Insulated {
		u = insulatedU
	}
	return u * float64(v.Walls) * (bath - float64(room.Air))
}
