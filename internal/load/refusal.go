package load

import (
	"fmt"
	"math"
	"strings"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// Why an item is refused.
const (
	NotMeasured = "not-measured" // the bath temperature is not known
	TooHot      = "too-hot"      // for this item
	TooCool     = "too-cool"     // to wash anything
	OverBand    = "over-band"    // too hot for anything: the bath stops
	Never       = "never"        // it stays out of any bath
)

// Refusal is one reason to keep an item out, in phrases without a full stop.
type Refusal struct {
	ID    string // one of the constants above
	Wrong string // what was read and what is allowed
	Do    string // what to do now
	Wake  string // whom to call, and for what
}

// String returns the refusal as the crew reads it, or hears it read aloud.
func (r Refusal) String() string {
	return catalog.KeptOut(r.Wrong, r.Do, r.Wake)
}

// refusals looks at the temperature: at the one that is measured for too cool,
// at the hottest there will be for too hot.
func refusals(item catalog.Item, in Conditions) []Refusal {
	switch hot := in.hottest(); {
	case math.IsNaN(float64(in.Bath)):
		return []Refusal{notMeasured}
	case hot > Ceiling.Hottest():
		return []Refusal{overBand(in)}
	case hot > item.Limit.Hottest():
		return []Refusal{tooHot(item, in)}
	case in.Bath < Coolest:
		return []Refusal{tooCool(in)}
	}
	return nil
}

// hottest is the most that the bath reaches during the wash.
func (in Conditions) hottest() units.Temperature {
	if in.Peak > in.Bath {
		return in.Peak
	}
	return in.Bath
}

var notMeasured = Refusal{
	ID:    NotMeasured,
	Wrong: "the bath temperature is not known",
	Do:    "measure the bath first",
	Wake:  "the gear officer if there is no thermometer",
}

func overBand(in Conditions) Refusal {
	return Refusal{
		ID:    OverBand,
		Wrong: in.against("this bath", Ceiling),
		Do:    "heater off, gear out, let the bath cool",
		Wake:  "the gear officer now",
	}
}

func tooHot(item catalog.Item, in Conditions) Refusal {
	return Refusal{
		ID:    TooHot,
		Wrong: in.against(item.Plural, item.Limit),
		Do:    insteadOfTooHot(item, in),
		Wake:  "the gear officer if the maker's paper allows more, never above " + in.printed(Ceiling),
	}
}

// insteadOfTooHot is the lawful way. An item that may never see the set point
// goes in before the bath is there.
func insteadOfTooHot(item catalog.Item, in Conditions) string {
	limit := item.Limit.Hottest()
	hottest := in.roundDown(limit)
	switch {
	case in.Bath <= limit:
		return "heater off until this wash is done"
	case in.Set <= limit:
		return "let the bath cool to " + hottest
	}
	return fmt.Sprintf("wash by hand in water of %s or cooler; next time %s go in first, light soil, while the bath warms from %s to %s",
		hottest, item.Plural, in.Units.Temp(Coolest), hottest)
}

func tooCool(in Conditions) Refusal {
	return Refusal{
		ID:    TooCool,
		Wrong: fmt.Sprintf("the bath is at %s, too cool to wash in", in.Units.TempFine(in.Bath)),
		Do:    fmt.Sprintf("heat it to %s at least", in.Units.Temp(Coolest)),
		Wake:  "the gear officer if it does not warm",
	}
}

// against says that the bath is too hot for a limit. The two numbers never
// look equal: tenths are added where they would, and where even those do not
// tell them apart, or the margin of the limit decides, only the limit stands.
func (in Conditions) against(what string, limit catalog.Limit) string {
	hot := in.hottest()
	reads := in.Units.Temp(hot)
	if reads == in.Units.Temp(limit.At) {
		reads = in.Units.TempFine(hot)
	}
	printed := in.printed(limit)
	if hot <= limit.At || reads == in.Units.TempFine(limit.At) {
		return fmt.Sprintf("the bath %s too close to the limit for %s, %s (%s)", in.verb(in.now("is", "would be"), "gets"), what, printed, limit.Source)
	}
	return fmt.Sprintf("the bath %s %s, the limit for %s is %s (%s)", in.verb(in.now("is at", "is set to"), "will reach"), reads, what, printed, limit.Source)
}

// now chooses between what was measured and what is only set.
func (in Conditions) now(measured, guessed string) string {
	if in.Guessed {
		return guessed
	}
	return measured
}

// verb chooses between what the bath is and what the heater makes of it.
func (in Conditions) verb(now, later string) string {
	if in.hottest() > in.Bath {
		return later
	}
	return now
}

// printed is a limit as its source has it, with the degrees of the crew beside
// it where the source uses the other ones.
func (in Conditions) printed(limit catalog.Limit) string {
	if strings.HasSuffix(limit.Printed, "F") == (in.Units == units.US) {
		return limit.Printed
	}
	return limit.Printed + " or " + in.Units.TempFine(limit.At)
}

// roundDown prints a temperature that may not be exceeded.
func (in Conditions) roundDown(t units.Temperature) string {
	const hair = 1e-9 // left by converting 110 °F to °C and back
	if in.Units == units.US {
		return in.Units.Temp(units.Fahrenheit(math.Floor(t.F() + hair)))
	}
	return in.Units.Temp(units.Temperature(math.Floor(2*float64(t)+hair) / 2))
}
