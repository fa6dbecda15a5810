package bath_test

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The kinds with a rule or two each.
func TestSmallKindsRefused(t *testing.T) {
	gal := func(x float64) *units.Volume { return p(units.Gallons(x)) }
	checkRefusals(t, []refusal{
		{name: "temp: boiling", body: &bath.Temp{BathC: 100}, id: "not-liquid", say: "a bath of 212 °F is not that of a bath of water: between 32 and 212 °F"},
		{name: "temp: set to ice", body: &bath.Temp{BathC: 50, SetC: p(units.Temperature(0))}, id: "not-liquid", say: "a set point of 32 °F"},
		{name: "temp: set too hot", body: &bath.Temp{BathC: 50, SetC: p(units.Fahrenheit(130.3))}, id: "too-hot", say: "a set point of 130.3 °F is above the hottest allowed here, 130 °F"},
		{name: "water: more than there is room for", body: &bath.Water{VolumeL: units.Gallons(13), Cause: bath.CauseEvaporation}, id: "too-full", say: "13.0 gal is beyond the mark: between it and the heater's low mark there is room for 12.0 gal"},
		{name: "water: more than was missing", body: &bath.Water{VolumeL: units.Gallons(5), Cause: bath.CauseEvaporation, BelowL: gal(4)}, id: "too-full", say: "5.0 gal is beyond the mark: at most 4.0 gal can have been missing"},
		{name: "water: more missing than there is", body: &bath.Water{Cause: bath.CauseEvaporation, BelowL: gal(61)}, id: "input", say: "61.0 gal missing is more than the tank holds (60.0 gal)"},
		{name: "degas: no time", by: keyHolder, body: &bath.Degas{}, id: "missing", say: "how long was the degas?"},
		{name: "degas: all day", by: keyHolder, body: &bath.Degas{Time: units.Hours(5)}, id: "input", say: "a degas of 5 h is not believable: at most 4 h"},
		{name: "filter: two days", body: &bath.Filter{Time: units.Hours(25)}, id: "input", say: "at most 24 h"},
		{name: "spill: nothing", body: &bath.Spill{To: "floor"}, id: "input", say: "spilled is not possible"},
		{name: "spill: more than the tank", body: &bath.Spill{VolumeL: units.Gallons(67), To: "floor"}, id: "input", say: "67.0 gal spilled is not possible: this tank holds 60.0 gal"},
		{name: "clean: while filled", body: &bath.Clean{}, id: "fill-open", say: "fill 1 is still in the tank: log its drain first, then the cleaning"},
		{name: "handover: nothing", body: &bath.Handover{}, id: "missing", say: "the note is empty"},
		{name: "duty: none of them", body: &bath.Duty{What: "lawn"}, id: "input", say: `"lawn" is not one of eyewash, foil, inspection`},
		{name: "strike: no reason", body: &bath.Strike{Target: 6}, id: "missing", say: "why is line 6 crossed out? Give a reason"},
	})
}

func TestASpillCanBeLoggedWithoutAFill(t *testing.T) {
	newBook(t).log(crew, &bath.Spill{VolumeL: 2, To: "floor"})
}

func TestLevelIsKnownFromTheLastLookAtTheMark(t *testing.T) {
	b := begun(t)
	level := func() float64 {
		l, _, _ := b.life().Level(b.bath().Tank)
		return l.Gal()
	}
	near(t, "after the fill", level(), 60, 1e-9)
	b.log(crew, &bath.Water{VolumeL: units.Gallons(1), Cause: bath.CauseEvaporation, BelowL: p(units.Gallons(4))})
	near(t, "one of four gallons made up", level(), 57, 1e-9)
	b.log(crew, &bath.Water{VolumeL: units.Gallons(3), Cause: bath.CauseEvaporation})
	near(t, "made up to the mark", level(), 60, 1e-9)
}

func TestTheLastSetPointCountsUntilTheFillEnds(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Temp{BathC: 40, SetC: p(units.Temperature(45))})
	b.log(crew, &bath.Temp{BathC: 44})
	if got := b.life().Set(b.bath().Tank); got != 45 {
		t.Errorf("got %v, want 45", got)
	}
	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	if got := b.life().Set(b.bath().Tank); got != bath.DefaultSet {
		t.Errorf("in the next fill: got %v, want %v", got, bath.DefaultSet)
	}
}
