// Package load says how gear is washed in the bath as it is now: for how many
// minutes one type of item, and whether it may go in at all (Pick); how a night
// of gear goes into baskets and washes, and in which order (Plan); how things
// lie in one basket (Place); and the core of that, things of so much floor in
// as few cycles as can be (Pack).
//
// It judges by type, soil, temperature, room and weight only. Red tags, papers
// on file, roles and the level of the tank are looked at elsewhere, and nothing
// here says how clean an item comes out.
package load

import (
	"fmt"
	"math"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// DefaultPerTenC is by how much the minutes grow for each 10 °C that the bath
// is below its set point. From memory: alkaline cleaning slows by 1.4 to 2.
const DefaultPerTenC = 1.5

// Coolest is the coolest bath to wash in, 95 F: from there masks go in while
// the bath warms. Common practice, no source.
const Coolest = units.Temperature(35)

// Ceiling is the hottest bath to wash in, whatever an item's own limit or its
// paper allows.
var Ceiling = catalog.Limit{
	At:      units.Fahrenheit(130),
	Printed: "130 F",
	Source:  "top of the working band, common practice, no source",
}

// Conditions is the bath that an item would go in.
type Conditions struct {
	Bath    units.Temperature // as measured; NaN when not known
	Guessed bool              // nobody measured it: Bath is the set point, and is told as that
	Peak    units.Temperature // where the heater takes it during the wash; counts only above Bath
	Set     units.Temperature // set point, from Coolest to Ceiling
	PerTenC float64           // 1 to 3; 0 is DefaultPerTenC
	Units   units.System      // in which the sentences speak
}

// Cycle is the answer for one item type. Its minutes are in minutes.
type Cycle struct {
	Item catalog.Item
	Soil Soil

	Minutes      float64 // for the timer: a whole or half minute, or Longest
	MinutesAtSet float64 // as the catalog has them
	Longest      float64
	Capped       bool // the bath asks for more than Longest

	Allowed  bool // nothing is refused
	Refusals []Refusal
	Say      string // the minutes, in one or two sentences
}

// Pick chooses the minutes and looks at the temperature. The minutes are given
// even when the item is refused. They rise as the bath cools below its set
// point, never beyond the item's longest, and never fall below those at the
// set point. The error names a soil, a set point or a factor that cannot be.
func Pick(item catalog.Item, soil Soil, in Conditions) (Cycle, error) {
	atSet, err := soil.minutes(item.Minutes)
	if err != nil {
		return Cycle{}, err
	}
	if in.PerTenC == 0 {
		in.PerTenC = DefaultPerTenC
	}
	if err := in.check(); err != nil {
		return Cycle{}, err
	}
	wanted := halfMinutesUp(atSet * in.slowdown())
	longest := item.Minutes.Longest
	cycle := Cycle{
		Item: item, Soil: soil,
		Minutes: min(wanted, longest), MinutesAtSet: atSet, Longest: longest,
		Capped:   wanted > longest,
		Refusals: refusals(item, in),
	}
	cycle.Allowed = len(cycle.Refusals) == 0
	cycle.Say = cycle.say(wanted, in)
	return cycle, nil
}

// KeepOut is the answer for what never goes in: no minutes, no limit that is
// printed, and its refusal.
func KeepOut(out catalog.Excluded, soil Soil) Cycle {
	return Cycle{
		Item: catalog.Item{
			ID: out.ID, Name: out.Name, Plural: out.Plural, Aliases: out.Aliases,
			Limit: catalog.Limit{Source: out.Source}, Lid: catalog.LidNone, Basket: catalog.BasketNone,
		},
		Soil:     soil,
		Refusals: []Refusal{{ID: Never, Wrong: out.Wrong(), Do: out.Instead, Wake: out.Wake}},
		Say:      "No minutes: it never goes in.",
	}
}

// check refuses conditions under which the arithmetic means nothing.
func (in Conditions) check() error {
	if !(in.Set >= Coolest && in.Set <= Ceiling.At) {
		return fmt.Errorf("set point is %s; set it between %s and %s",
			in.Units.Temp(in.Set), in.Units.Temp(Coolest), in.Units.Temp(Ceiling.At))
	}
	if math.IsInf(float64(in.Bath), 0) || math.IsInf(float64(in.Peak), 0) {
		return fmt.Errorf("bath temperature is not a number; measure the bath again")
	}
	if !(in.PerTenC >= 1 && in.PerTenC <= 3) {
		return fmt.Errorf("minutes would grow by %v for each 10 °C; 1 to 3 is allowed, %v is usual", in.PerTenC, DefaultPerTenC)
	}
	return nil
}

// below is how far the bath is under its set point. Half a degree counts as
// none: a bath thermometer tells no less. So does a bath not measured.
func (in Conditions) below() units.Delta {
	const tells = 0.5 // °C
	if d := units.Delta(in.Set - in.Bath); d > tells {
		return d
	}
	return 0
}

// slowdown is the factor on the minutes: PerTenC to the power of tens of °C.
func (in Conditions) slowdown() float64 {
	return math.Pow(in.PerTenC, float64(in.below())/10)
}

// halfMinutesUp rounds up to what people set on a timer: 4.58 is 5. A
// millionth over, left by converting °F, is not a reason for half a minute.
func halfMinutesUp(minutes float64) float64 {
	return math.Ceil(2*minutes-1e-6) / 2
}
