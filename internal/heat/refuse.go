package heat

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// What the model knows: a tank of a workshop, liquid water, and air that people
// work in.
const (
	least, most            = units.Volume(1), units.Volume(20000)
	mostSteel              = units.Mass(20000)
	mostArea               = units.Area(200)
	mostFactor             = 20.0
	coldest, hottest       = units.Temperature(0), units.Temperature(80)
	coldestAir, hottestAir = units.Temperature(-40), units.Temperature(60)
)

// hair keeps two temperatures of one sentence apart: a refusal never shows two
// equal numbers, and about is not as fine as this.
const hair = 0.1

// TooWeak says that a heater never gets a bath as warm as it should be.
type TooWeak struct {
	Vessel Vessel
	Heater units.Power
	To     units.Temperature // asked for
	Holds  units.Temperature // where the bath comes to rest, at most 80 °C
}

func (e *TooWeak) Error() string { return e.In(units.SI) }

// In is the sentence in the units of the station.
func (e *TooWeak) In(sys units.System) string {
	lid, wall, do := "open", "bare", "shut the lid"
	if e.Vessel.Lid {
		lid, do = "covered", "insulate the tank"
	}
	if e.Vessel.Insulated {
		wall = "insulated"
	}
	if e.Vessel.Lid && e.Vessel.Insulated {
		do = "check the heater's power"
	}
	holds, to := sys.TempPair(min(e.Holds, e.To-hair), e.To)
	return fmt.Sprintf("a %s heater holds this %s, %s bath at about %s, not %s: %s, or set it lower",
		sys.Text(e.Heater), lid, wall, holds, to, do)
}

// TooWarm says that a bath left alone never gets as cool as it should be.
type TooWarm struct {
	To      units.Temperature // asked for
	Settles units.Temperature // where the bath comes to rest
}

func (e *TooWarm) Error() string { return e.In(units.SI) }

// In is the sentence in the units of the station.
func (e *TooWarm) In(sys units.System) string {
	settles, to := sys.TempPair(max(e.Settles, e.To+hair), e.To)
	return fmt.Sprintf("this bath cools to about %s in this room, not to %s: add cold water, or cool the room", settles, to)
}

// check refuses figures that are none of a bath. Its conditions are put so that
// NaN is refused too.
func (v Vessel) check(room Room, baths ...units.Temperature) error {
	if !(v.Water >= least && v.Water <= most) {
		return fmt.Errorf("a bath of %s is none we can reckon with: give its volume to the mark, 1 L to 20000 L (5280 gal)", units.SI.Text(v.Water))
	}
	if !(v.Steel >= 0 && v.Steel <= mostSteel) {
		return fmt.Errorf("a tank of %s is none we can reckon with: give the steel in it, 0 to 20000 kg", units.SI.Text(v.Steel))
	}
	if !(v.LossFactor >= 0 && v.LossFactor <= mostFactor) {
		return fmt.Errorf("a loss of %g times the usual is none we can reckon with: give 0 to %g", v.LossFactor, mostFactor)
	}
	if err := v.checkFaces(); err != nil {
		return err
	}
	return room.check(baths...)
}

// checkFaces is the part of check that the vapour needs: no water, no steel.
func (v Vessel) checkFaces() error {
	for _, a := range []units.Area{v.Surface, v.Walls} {
		if !(a >= 0 && a <= mostArea) {
			return fmt.Errorf("a surface or wall of %s is none we can reckon with: give 0 to 200 m²", units.SI.Text(a))
		}
	}
	if !(v.LidShare >= 0 && v.LidShare <= 1) {
		return fmt.Errorf("a lid that lets through %g of the vapour is none we can reckon with: give 0 to 1", v.LidShare)
	}
	return nil
}

// check refuses a room that nobody works in, and temperatures that no bath in
// it has.
func (r Room) check(baths ...units.Temperature) error {
	for _, t := range baths {
		if !(t >= coldest && t <= hottest) {
			return fmt.Errorf("%s is no temperature of a bath: give one from 0 °C to 80 °C (32 °F to 176 °F)", units.SI.Temp(t))
		}
	}
	if !(r.Air >= coldestAir && r.Air <= hottestAir) {
		return fmt.Errorf("%s is no temperature of a room: give one from -40 °C to 60 °C (-40 °F to 140 °F)", units.SI.Temp(r.Air))
	}
	if !(r.RH >= 0 && r.RH <= 1) {
		return fmt.Errorf("a humidity of %g is not within 0 to 1: write 0.5 for 50 %%", r.RH)
	}
	return nil
}

func checkHeater(p units.Power) error {
	if !(p > 0 && p < units.Power(math.Inf(1))) {
		return fmt.Errorf("a heater of %s warms nothing: give its power, as in 6kW", units.SI.Text(p))
	}
	return nil
}
