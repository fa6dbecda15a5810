package heat

import (
	"fmt"
	"math"
	"time"

	"bathside/internal/units"
)

// Specific heats of what goes into a bath, J/(kg·K). From memory: round figures
// of tables of materials.
const (
	Steel      = steelHeat
	Aluminium  = 900.0
	Plastic    = 1600.0 // rubber and hard plastics
	WetTextile = 2164.0 // three parts of water to seven of dry cloth
)

// Cold is gear as it goes into a bath. What drips off it and the room that it
// takes up are left out.
type Cold struct {
	Mass units.Mass
	Heat float64 // specific, J/(kg·K): Steel, Aluminium, Plastic, WetTextile
	At   units.Temperature
}

// Dip is how warm a bath is once the gear in it is as warm as the water, all
// heat kept. The heater and the room are left out: it takes minutes. Figures
// that are none of a bath or of gear are refused in one sentence.
func (v Vessel) Dip(bath units.Temperature, gear ...Cold) (units.Temperature, error) {
	if err := v.check(Room{}, bath); err != nil {
		return 0, err
	}
	capacity := v.capacity(float64(bath))
	heat := capacity * float64(bath)
	for _, c := range gear {
		if err := c.check(); err != nil {
			return 0, err
		}
		capacity += c.capacity()
		heat += c.capacity() * float64(c.At)
	}
	return units.Temperature(heat / capacity), nil
}

// Recovery is how long heater takes to bring the bath back to where it was, the
// gear still in it. Its errors are those of Dip and of WarmUp.
func (v Vessel) Recovery(bath units.Temperature, heater units.Power, room Room, gear ...Cold) (time.Duration, error) {
	dipped, err := v.Dip(bath, gear...)
	if err != nil {
		return 0, err
	}
	for _, c := range gear {
		v.Steel += units.Mass(c.capacity() / steelHeat) // warms up with the tank
	}
	return v.WarmUp(dipped, bath, heater, room)
}

// capacity is in J/K.
func (c Cold) capacity() float64 { return float64(c.Mass) * c.Heat }

func (c Cold) check() error {
	switch {
	case !(c.Mass >= 0 && c.Mass <= mostSteel):
		return fmt.Errorf("gear of %s is none we can reckon with: give its mass, as in 10kg", units.SI.Text(c.Mass))
	case !(c.Heat > 0 && c.Heat < math.Inf(1)):
		return fmt.Errorf("gear with a specific heat of %g J/(kg·K) is none we can reckon with: steel has 500, plastic 1600", c.Heat)
	case !(c.At >= coldestAir && c.At <= hottest):
		return fmt.Errorf("%s is no temperature of gear: give one from -40 °C to 80 °C (-40 °F to 176 °F)", units.SI.Temp(c.At))
	}
	return nil
}
