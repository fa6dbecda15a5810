package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The steps that bring a fill into service, in order: fill, dose, heat, degas,
// first reading. Each rule speaks when the one before it is done.

// refill: an empty bath is cleaned before it is filled again.
func refill(x *Snapshot) []Action {
	if x.Open || x.Life.Drain == nil {
		return none
	}
	for _, e := range x.Bath.AfterDrain() {
		if e.Kind() == "clean" {
			return none
		}
	}
	a := Action{
		ID: "clean", Urgency: Today, Kind: "clean",
		Say: "Clean the tank, wipe out the sludge",
		Why: fmt.Sprintf("drained %s; power locked out before a hand goes in", x.Date(x.Life.Drain.At)),
	}
	if x.contaminated() {
		a.Preset = map[string]string{"sludge": bath.RouteHold}
		a.Why += "; the sludge is held too"
	}
	return one(a)
}

// fillBath: a bath with nothing in it.
func fillBath(x *Snapshot) []Action {
	if x.Open || len(refill(x)) > 0 {
		return none
	}
	mark := "the mark"
	if m := x.Bath.Tank.Mark; m != "" {
		mark = "the mark: " + m
	}
	return one(Action{
		ID: "fill", Urgency: Today, Kind: "fill", Preset: map[string]string{"volume": x.Sys.Text(x.Bath.Tank.VolumeL)},
		Say: "Fill the bath to the mark",
		Why: fmt.Sprintf("%s to %s; drain valve shut first", x.Sys.Volume(x.Bath.Tank.VolumeL), mark),
	})
}

// dose: fresh water wants its soap.
func dose(x *Snapshot) []Action {
	if !x.Open || len(bath.Of[*bath.Dose](x.Life.Entries)) > 0 {
		return none
	}
	a := Action{
		ID: "dose", Urgency: Today, Kind: "dose",
		Say: "Add the first dose of soap",
		Why: "no ratio is set: follow the product's label",
	}
	if l := x.Life.Charge(x.State, x.Bath.Tank); l > 0 {
		a.Say = "Add soap, " + x.Amount(l)
		a.Why = fmt.Sprintf("%g to 1 on %s; cap and seal off, pour slowly, eyes covered", x.Bath.Tank.Ratio, x.Sys.Volume(x.Life.Fill.Is.VolumeL))
	}
	return one(a)
}

// Amount is a volume of soap, also in what it comes in: "2.0 gal: 2 jugs".
func (x *Snapshot) Amount(l units.Volume) string {
	s := x.Sys.Volume(l)
	if c := x.Bath.Tank.Containers(l); c != "" {
		s += ": " + c
	}
	return s
}

// AmountIn is Amount inside a sentence: "2.0 gal (2 jugs)".
func (x *Snapshot) AmountIn(l units.Volume) string {
	s := x.Sys.Volume(l)
	if c := x.Bath.Tank.Containers(l); c != "" {
		s += " (" + c + ")"
	}
	return s
}

// inService reports whether the fill has its first reading: the start is over.
func (x *Snapshot) inService() bool { return x.PH.First != nil }

// warmUp: soap works warm, and the first reading is taken hot.
func warmUp(x *Snapshot) []Action {
	if !x.Open || x.inService() || x.warm() || len(dose(x)) > 0 {
		return none
	}
	set := x.Sys.Temp(x.Set())
	a := Action{ID: "heat", Urgency: Today, Kind: "temp", Say: "Heat to " + set + ", then measure", Why: "set point confirmed, not only dialled"}
	at, ok := x.ReadyAt()
	switch {
	case x.heaterOff():
		a.Say, a.Why = "Heater on, heat to "+set, "it was logged as off "+x.Clock(x.Temp.At)
	case ok && at.After(x.Now):
		a.Due, a.Why = at, x.readySay(at)
	case ok:
		a.Say, a.Why = "Measure the bath", fmt.Sprintf("it should be at %s since about %s, if the heater is on", set, x.Clock(at))
	}
	return one(a)
}

func (x *Snapshot) readySay(at time.Time) string {
	from, _, known := x.heatUp()
	s := fmt.Sprintf("ready about %s with %s, from %s", x.Clock(at), x.Sys.Text(x.Bath.Tank.Heater()), x.Sys.Temp(from))
	if !known {
		s += ", supposed"
	}
	return s
}

// degas: fresh liquid holds air, and air swallows ultrasound. A first reading
// does not wait for it, but every wash does.
func degas(x *Snapshot) []Action {
	if !x.Open || x.Life.Degassed() || len(dose(x)) > 0 || !x.warm() && !x.inService() {
		return none
	}
	a := Action{
		ID: "degas", Urgency: Today, Kind: "degas",
		Say: "Run empty 15 min to clear bubbles",
		Why: "key holder, lid shut, bath warm, until no more fine bubbles rise",
	}
	if x.inService() {
		a.Why = "none is logged in this fill, and no wash counts before it; " + a.Why
	}
	return one(a)
}

// firstReading: the one the fill is judged against.
func firstReading(x *Snapshot) []Action {
	if !x.Open || x.inService() || len(dose(x)) > 0 {
		return none
	}
	a := Action{
		ID: "baseline", Urgency: Today, Kind: "reading", Preset: map[string]string{"baseline": "yes"},
		Say: "Take the first reading",
		Why: "hot and mixed; every later one is judged against it",
	}
	switch {
	case len(bath.Of[*bath.Reading](x.Life.Entries)) > 0:
		a.Why = "no reading of this fill is named the first: take one now, hot and mixed"
	case !x.warm():
		a.Urgency, a.Why = Soon, "when the bath is warm and mixed"
	case !x.Life.Degassed():
		a.Why = "no degas is logged: it can be read all the same"
	}
	return one(a)
}

// cooledPair: the same cup, read again cold, gives this bath's own slope.
func cooledPair(x *Snapshot) []Action {
	if x.PH.First == nil || x.PH.Cooled != nil {
		return none
	}
	if x.Now.Sub(x.PH.First.At) > 24*time.Hour { // the cup is long cold and the bath has changed
		return none
	}
	return one(Action{
		ID: "baseline-cooled", Urgency: Today, Kind: "reading", Preset: map[string]string{"baseline": "yes", "cooled": "yes"},
		Say: "Read the same cup again when cool",
		Why: fmt.Sprintf("first reading %.2f at %s; then cold readings can be compared too", float64(x.PH.First.Is.PH), x.Sys.Temp(x.PH.First.Is.SampleC)),
	})
}
