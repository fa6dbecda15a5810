package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
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
	return one(Action{
		ID: "clean", Urgency: Today, Kind: "clean",
		Say: "Clean the tank; wipe out the sludge",
		Why: fmt.Sprintf("drained %s; power locked out before a hand goes in", x.Date(x.Life.Drain.At)),
	})
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
		ID: "fill", Urgency: Today, Kind: "fill",
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
		a.Say = "Add " + x.Amount(l) + " of soap"
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

// inService reports whether the fill has its first reading: the start is over.
func (x *Snapshot) inService() bool { return x.PH.First != nil }

// nearSet is how far below the set point still counts as warm.
const nearSet = units.Temperature(3)

// heatUp is where a warm-up starts from: the last measured temperature, or
// that of the water that ran in. warm says that the bath is there already.
func heatUp(x *Snapshot) (from units.Temperature, since time.Time, known, warm bool) {
	if x.Temp != nil {
		return x.Temp.Is.BathC, x.Temp.At, true, x.Temp.Is.BathC >= x.Set()-nearSet
	}
	if w := x.Life.Fill.Is.WaterC; w != nil {
		return *w, x.Life.Fill.At, true, false
	}
	return 15, x.Life.Fill.At, false, false // mains water, from memory
}

// warmUp: soap works warm, and the first reading is taken hot.
func warmUp(x *Snapshot) []Action {
	if !x.Open || x.inService() || len(dose(x)) > 0 {
		return none
	}
	from, _, known, warm := heatUp(x)
	if warm {
		return none
	}
	a := Action{ID: "heat", Urgency: Today, Kind: "temp", Say: "Heat to " + x.Sys.Temp(x.Set()) + ", then measure", Why: "set point confirmed, not only dialled"}
	if at, ok := x.ReadyAt(); ok {
		start := "from " + x.Sys.Temp(from)
		if !known {
			start += ", supposed"
		}
		a.Due, a.Why = at, fmt.Sprintf("ready about %s with %s, %s", x.Clock(at), x.Sys.Text(x.Bath.Tank.Heater()), start)
	}
	return one(a)
}

// Vessel is a tank as the heat model sees it, with v of liquid in it.
func Vessel(t bath.Tank, v units.Volume) heat.Vessel {
	w := heat.NewVessel(v)
	if t.SurfaceM2 > 0 {
		w.Surface = t.SurfaceM2
	}
	w.Lid, w.Insulated = t.Lid != nil && *t.Lid, t.Insulated != nil && *t.Insulated
	return w
}

// ReadyAt is about when the bath reaches its set point with the heater on
// since it was last measured; false where it is there, or never gets there.
func (x *Snapshot) ReadyAt() (time.Time, bool) {
	if !x.Open {
		return time.Time{}, false
	}
	from, since, _, warm := heatUp(x)
	if warm {
		return time.Time{}, false
	}
	d, err := Vessel(x.Bath.Tank, x.Life.Fill.Is.VolumeL).WarmUp(from, x.Set(), x.Bath.Tank.Heater(), heat.Room{Air: 20, RH: 0.5})
	if err != nil {
		return time.Time{}, false
	}
	return since.Add(d), true
}

// degas: fresh liquid holds air, and air swallows ultrasound.
func degas(x *Snapshot) []Action {
	if !x.Open || x.inService() || x.Life.Degassed() || len(dose(x)) > 0 {
		return none
	}
	if _, _, _, warm := heatUp(x); !warm {
		return none
	}
	return one(Action{
		ID: "degas", Urgency: Today, Kind: "degas",
		Say: "Run it empty 15 min to clear bubbles",
		Why: "fresh fill; key holder; lid shut, until no more fine bubbles rise",
	})
}

// firstReading: the one the fill is judged against.
func firstReading(x *Snapshot) []Action {
	if !x.Open || x.inService() || len(dose(x)) > 0 {
		return none
	}
	a := Action{
		ID: "baseline", Urgency: Today, Kind: "reading", Preset: map[string]string{"baseline": "yes"},
		Say: "Take the first pH reading of this fill",
		Why: "hot and mixed; every later one is judged against it",
	}
	_, _, _, warm := heatUp(x)
	switch {
	case len(bath.Of[*bath.Reading](x.Life.Entries)) > 0:
		a.Why = "readings are there, and none is named the first: name one, hot and mixed"
	case !warm:
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
		Say: "Read the same cup again when it is cool",
		Why: fmt.Sprintf("first reading %.2f at %s; then a cold reading can be compared too", float64(x.PH.First.Is.PH), x.Sys.Temp(x.PH.First.Is.SampleC)),
	})
}
