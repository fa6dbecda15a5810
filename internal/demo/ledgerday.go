package demo

import (
	"encoding/json"
	"math"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The made-up bath falls by 0.45 in a fill, and the same cup reads half a unit
// higher when it has cooled to the room.
const (
	firstPH  = 9.90
	fallsBy  = 0.45
	cooledBy = 0.50
	hotF     = 120
	roomF    = 74
	slipAge  = 14 // day of the fill on which the reading is typed wrong
)

// fillDay ends the fill before, if any, and starts the next.
func (l *ledger) fillDay(number int) {
	if number > 1 {
		ph, room, cool, oil := units.PH(firstPH-fallsBy+cooledBy), units.Fahrenheit(roomF), units.Fahrenheit(95), false
		l.write(bath.Officer, &bath.Drain{VolumeL: 250, PH: &ph, SampleC: &room, LiquidC: &cool, Oil: &oil, Route: bath.RouteSewer})
		l.write(bath.Crew, &bath.Clean{Sludge: bath.RouteHauler})
	}
	water := units.Fahrenheit(58)
	l.write(bath.Crew, &bath.Fill{VolumeL: 260, WaterC: &water})
	l.write(bath.Crew, &bath.Dose{VolumeL: 6.5, Lot: "L4107"})
	l.heater(true, 59)
	l.write(bath.KeyHolder, &bath.Degas{Time: units.Minutes(20)})
	l.write(bath.Crew, &bath.Reading{PH: firstPH, SampleC: units.Fahrenheit(hotF), Meter: "M1", Baseline: true})
	l.write(bath.Crew, &bath.Reading{PH: firstPH + cooledBy, SampleC: units.Fahrenheit(roomF), Meter: "M1", Baseline: true, Cooled: true})
	l.wash()
	l.close()
}

// day is one of a fill of so many days.
func (l *ledger) day(age, days int) {
	l.heater(true, 80)
	if age%7 == 0 {
		l.weekly(firstPH-fallsBy*float64(age)/float64(days), age == slipAge)
		l.write(bath.Crew, &bath.Duty{What: bath.DutyEyewash})
	}
	if age%3 == 0 {
		l.write(bath.Crew, &bath.Water{VolumeL: units.Volume(2 + l.chance.IntN(5)), Cause: bath.CauseCarryOut})
	}
	l.wash()
	l.close()
}

// weekly is the weekly reading. One that is typed wrong is crossed out, with
// the right one in its place.
func (l *ledger) weekly(ph float64, slips bool) {
	ph = math.Round(100*(ph+0.015*(2*l.chance.Float64()-1))) / 100
	read := bath.Reading{PH: units.PH(ph), SampleC: units.Fahrenheit(hotF), Meter: "M1", Waited: 20}
	if !slips {
		l.write(bath.Crew, &read)
		return
	}
	slip := read
	slip.PH -= 0.3
	l.write(bath.Crew, &slip)
	right, err := json.Marshal(read)
	if err != nil { // a struct of numbers and words
		panic(err)
	}
	l.write(bath.Crew, &bath.Strike{Target: uint64(len(l.entries)), Why: "typed wrong", Instead: right})
}

// wash fills the day up with washes: masks while the bath warms, then the
// rest.
func (l *ledger) wash() {
	for i := 0; l.lines < linesADay-closingLines && l.left() > 0; i++ {
		w := &bath.Wash{Items: l.loads[i%len(l.loads)], Soil: "normal", Time: units.Minutes(10), BathC: units.Fahrenheit(hotF), Result: bath.ResultClean}
		if w.Items[0].Item == "mask" {
			w.Soil, w.Time, w.BathC = "light", units.Minutes(4.5), units.Fahrenheit(105)
		}
		l.write(bath.KeyHolder, w)
	}
}

// close is the end of a day of washing.
func (l *ledger) close() {
	l.write(bath.Crew, &bath.Filter{Time: units.Minutes(30)})
	l.heater(false, 119)
	l.write(bath.Crew, &bath.Handover{Note: "bath filtered, heater off, lid shut"})
	l.next()
}

func (l *ledger) heater(on bool, bathF float64) {
	l.write(bath.Crew, &bath.Temp{BathC: units.Fahrenheit(bathF), Heat: &on})
}
