package heat

import (
	"fmt"

	"bathside/internal/units"
)

// Vapour is the water that a bath gives to the room, in kg/h.
type Vapour float64

// PerDay is the water that makes up for a day of it, as it is poured in: at
// 15 °C.
func (e Vapour) PerDay() units.Volume {
	return units.Volume(24 * float64(e) / Density(filledAt) * 1000)
}

// Evaporation is what a still bath gives to the room by its surface, under its
// lid where it has one. Only Surface, Lid and LidShare of v count. It is good to
// about 20 % over an open bath from 38 to 65 °C; below that it is an upper
// bound, and under a lid it is as good as the share is. Figures that are none of
// a bath are refused in one sentence.
func (v Vessel) Evaporation(bath units.Temperature, room Room) (Vapour, error) {
	if err := v.checkFaces(); err != nil {
		return 0, err
	}
	if err := room.check(bath); err != nil {
		return 0, err
	}
	return v.evaporation(bath, room), nil
}

// evaporation is Evaporation, unchecked.
func (v Vessel) evaporation(bath units.Temperature, room Room) Vapour {
	return Vapour(evaporation(bath, room) * float64(v.Surface) * v.share())
}

// Routine is how a bath spends its day: so long heated, within that so long
// with the lid up, and the rest idle.
type Routine struct {
	Hot, Idle    units.Temperature
	Heated, Open units.Span // of the day; Open counts while it is heated
}

const day = units.Span(24 * 3600)

// PerDay is the water that evaporates in such a day. An open bath is open all
// day, whatever the routine says of its lid.
func (v Vessel) PerDay(r Routine, room Room) (units.Volume, error) {
	if !(r.Open >= 0 && r.Open <= r.Heated && r.Heated <= day) {
		return 0, fmt.Errorf("a bath heated for %s and open for %s of a day does not add up: give at most 24 h, open no longer than heated",
			r.Heated, r.Open)
	}
	hot, err := v.Evaporation(r.Hot, room)
	if err != nil {
		return 0, err
	}
	idle, err := v.Evaporation(r.Idle, room)
	if err != nil {
		return 0, err
	}
	up := v
	up.Lid = false
	open := up.evaporation(r.Hot, room)
	part := func(t units.Span) Vapour { return Vapour(t / day) }
	return (part(r.Open)*open + part(r.Heated-r.Open)*hot + part(day-r.Heated)*idle).PerDay(), nil
}
