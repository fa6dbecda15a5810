package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/trend"
)

// signedSince is the decision that was signed since the last reading, if it
// still stands on what it rested on.
func (x *Snapshot) signedSince() (d bath.Rec[*bath.Decision], ok bool) {
	d, shaken, ok := x.Decided()
	if !ok || shaken || x.PH.Last != nil && d.At.Before(x.PH.Last.At) {
		return d, false
	}
	return d, true
}

// decided: what the gear officer signed is done next.
func decided(x *Snapshot) []Action {
	d, shaken, ok := x.Decided()
	if !x.Open || !ok {
		return none
	}
	signed := fmt.Sprintf("signed by %s, %s", d.By, x.Clock(d.At))
	switch {
	case shaken:
		return one(Action{ID: "decide-again", Urgency: Today, Kind: "decision", Say: "Decide again: what was signed has lost its ground",
			Why: signed + "; a reading that it rests on was crossed out since"})
	case d.Is.Choice == bath.ChoiceTopUp && !x.dosedSince(d.Entry):
		a := Action{ID: "top-up", Urgency: Today, Kind: "dose", Say: "Top up", Why: signed + "; pour slowly, let it mix, read again"}
		if d.Is.DoseL != nil {
			a.Say = "Top up with " + x.AmountIn(*d.Is.DoseL)
			a.Preset = map[string]string{"volume": x.Sys.Text(*d.Is.DoseL)}
		}
		return one(a)
	case d.Is.Choice == bath.ChoiceDrain:
		return one(Action{ID: "drain", Urgency: Today, Kind: "drain", Say: "Drain and refill",
			Why: signed + "; heater off and locked out first, by permission or hauler only"})
	}
	return none
}

// dateAhead is how many days before its likely date the limit is spoken of.
const dateAhead = 28

// limitDate: when the bath will probably be at its limit.
func limitDate(x *Snapshot) []Action {
	if x.Trend.Known() && x.Trend.State == trend.Due && !x.deciding() {
		return one(Action{ID: "limit-date", Urgency: Soon, Kind: "reading", Say: "Probably at the limit by now: read the pH", Why: "by the fall so far and the washes since the last reading"})
	}
	if !x.Trend.Known() || x.Trend.State != trend.Dated || x.deciding() || x.Trend.Q50 > dateAhead {
		return none
	}
	a := Action{ID: "limit-date", Urgency: Later, Due: x.after(x.Trend.Q50), Say: "Limit likely about " + x.Date(x.after(x.Trend.Q50))}
	if x.Trend.Q10 <= 7 {
		a.Urgency = Soon
	}
	late := "later than " + x.Date(x.after(trend.Horizon))
	if x.Trend.Q90 < trend.Horizon {
		late = x.Date(x.after(x.Trend.Q90))
	}
	a.Why = fmt.Sprintf("between %s and %s", x.Date(x.after(x.Trend.Q10)), late)
	a.From = x.Trend.Explain(x)
	return one(a)
}

// after is so many days from now.
func (x *Snapshot) after(days float64) time.Time {
	return x.Now.Add(time.Duration(days * 24 * float64(time.Hour)))
}

// changed: the pH, or the meter in its buffer, moves otherwise than before. It
// asks for a look and sounds no alarm: one chart in eight does so for nothing.
func changed(x *Snapshot) []Action {
	if !x.Open {
		return none
	}
	switch x.Changed() {
	case trend.MeterChanged:
		name, _ := x.meterInUse()
		return one(Action{ID: "changed", Urgency: Soon, Kind: "calibration", Preset: map[string]string{"meter": name},
			Say: "Look at the meter: it reads its buffer otherwise", Why: "the last dip lies outside what its dips before led to expect"})
	case trend.BathChanged, trend.OneChanged:
		return one(Action{ID: "changed", Urgency: Later, Say: "Look at the bath: the pH moves otherwise than before",
			Why: string(x.Changed()) + "; what went in, what was washed, is the lid shut?"})
	}
	return none
}
