package heat

import (
	"math"

	"bathside/internal/units"
)

// seaLevel is the pressure of the air, in kPa.
const seaLevel = 101.325

// evaporation is what a still, open bath gives to the room, in kg/(m²·h): the
// mean of two published formulas, which lie within 11 % of each other from 45
// to 60 °C. It is good to about 20 %, and never less than nothing: dew on a
// cold bath is left out.
func evaporation(bath units.Temperature, room Room) float64 {
	wet, dry := saturated(bath), room.air()
	return max(0, (ashrae(wet, dry)+shah(wet, dry))/2)
}

// air is moist air at sea level.
type air struct {
	temp   units.Temperature
	vapour float64 // partial pressure, kPa
}

// saturated is the air that touches the water of a bath.
func saturated(bath units.Temperature) air { return air{bath, VapourPressure(bath)} }

func (r Room) air() air { return air{r.Air, r.RH * VapourPressure(r.Air)} }

// ratio is the kilograms of vapour for each kilogram of dry air.
func (a air) ratio() float64 { return 0.621945 * a.vapour / (seaLevel - a.vapour) }

// dryDensity is the kilograms of dry air in a cubic metre of moist air.
func (a air) dryDensity() float64 {
	const gasConstant = 287.055 // of dry air, J/(kg·K)
	return 1000 * (seaLevel - a.vapour) / (gasConstant * a.temp.K())
}

// ashrae is the formula for indoor pools in the ASHRAE handbook, HVAC
// Applications, with its activity factor at 1 and air at 0.1 m/s. The factor of
// 0.5 for a still pool is for 27 °C and would halve the vapour of a hot bath.
func ashrae(wet, dry air) float64 {
	const speed = 0.1 // m/s, still air in a room; from memory
	return 3600 * 1000 * (wet.vapour - dry.vapour) * (0.089 + 0.0782*speed) / HeatOfEvaporation(wet.temp)
}

// shah is natural convection over water, after M. M. Shah, ASHRAE paper
// SE-14-001 (2014). Moist air over a warm bath is lighter than the room's and
// rises; where it is not, the last line alone counts.
func shah(wet, dry air) float64 {
	buoyancy := max(0, dry.dryDensity()-wet.dryDensity())
	factor := 35.0
	if buoyancy <= 0.02 {
		factor = 40
	}
	rising := factor * wet.dryDensity() * math.Cbrt(buoyancy) * (wet.ratio() - dry.ratio())
	return max(rising, 0.05*(wet.vapour-dry.vapour))
}
