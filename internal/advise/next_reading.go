package advise

import (
	"fmt"
	"time"
)

// limitReached: the gear officer decides.
func limitReached(x *Snapshot) []Action {
	if !x.Open || x.PH.Drop == nil {
		return none
	}
	if _, signed := x.signedSince(); signed {
		return none
	}
	a := Action{ID: "limit", Why: x.DropSay()}
	if x.Soap != nil && x.deciding() {
		a.Why += "; more soap: " + x.Soap.Say
	}
	a.From = x.ReadingSay(*x.PH.Last)
	switch x.PH.State {
	case PHPast:
		a.Urgency, a.Say, a.Kind = Now, "Over the limit: tell the gear officer", "decision"
		a.Why += "; top up or drain is theirs to decide"
	case PHAtLimit:
		a.Urgency, a.Say, a.Kind = Today, "At the limit: rinse, read again", "reading"
		a.Why += "; if it is the same, tell the gear officer"
	case PHWatch:
		a.Urgency, a.Say = Soon, "Getting close: have soap at hand"
	default:
		return none
	}
	return one(a)
}

// doubtfulReading: the pH went up and nobody logged why, or it is far out of
// line. A reading by a failed
// meter is the meter's business.
func doubtfulReading(x *Snapshot) []Action {
	r := x.PH.Latest
	if r == nil { // a later reading settles it
		return none
	}
	a := Action{ID: "doubt", Urgency: Today, Kind: "reading"}
	switch {
	case r.Doubt.Kind == DoubtRose:
		a.Say = "Read again: the pH went up"
		a.Why = r.Doubt.Why + ": was soap added, was it refilled, was the first reading taken before it mixed?"
	case r.Doubt.Kind == DoubtOdd:
		a.Say, a.Why = "Odd one, read again", r.Doubt.Why
	case r.Odd != "" && x.PH.State != PHAtLimit: // at the limit it is read again anyway
		a.Say, a.Why = "Odd one, read again", r.Odd
	default:
		return none
	}
	return one(a)
}

// readAgain: the last reading cannot be compared with the first.
func readAgain(x *Snapshot) []Action {
	at, ok := x.PH.Again()
	if !x.Open || !ok || x.PH.State != PHUnknown {
		return none
	}
	return one(Action{
		ID: "read-again", Urgency: Today, Kind: "reading",
		Say: "Read again at about " + x.Sys.Temp(at),
		Why: x.PH.Why,
	})
}

const (
	readingEvery = 7 // days
	overdueAfter = 8
	drillAgain   = 1             // days after a reading from which a drill night counts as the next one
	belongsNext  = 2 * time.Hour // due this close to the change, it is the next shift's
)

// readingDue: once a week, any time in the duty day; a station of volunteers
// reads on drill night.
func readingDue(x *Snapshot) []Action {
	if !x.Open || !x.inService() {
		return none
	}
	last := x.PH.Latest.At.In(x.Now.Location())
	start, end := x.readingDay(last)
	a := Action{ID: "reading", Due: end, Kind: "reading", Say: "Take the weekly pH"}
	if toCome(last, x.Now) {
		a.Urgency, a.Due, a.Why = Today, time.Time{}, x.toComeSay(last)
		return one(a)
	}
	switch {
	case !x.Now.Before(last.AddDate(0, 0, overdueAfter)):
		a.Urgency, a.Say = Now, "Take the weekly pH: overdue"
	case !x.Now.Before(start):
		a.Urgency = Today
	case !x.Now.Before(start.AddDate(0, 0, -2)):
		a.Urgency = Soon
	default:
		a.Urgency = Later
	}
	due := "due " + x.Date(start)
	switch {
	case !x.Now.Before(end):
		due = "was due by " + x.Clock(end)
	case a.Urgency <= Today:
		due = "due by " + x.Clock(end)
	}
	a.Why = fmt.Sprintf("%s, last %s", due, x.Date(last))
	return one(a)
}

// readingDay is the duty day in which the next reading is due after one at
// last. With drill nights it is the next of them, at most eight days away:
// waiting for the one after a week has passed would be overdue.
func (x *Snapshot) readingDay(last time.Time) (start, end time.Time) {
	if night, ok := x.State.Shifts().NextDrill(last.AddDate(0, 0, drillAgain)); ok {
		return x.day(night)
	}
	due := last.AddDate(0, 0, readingEvery)
	start, end = x.day(due)
	if end.Sub(due) <= belongsNext {
		return x.day(end)
	}
	return start, end
}
