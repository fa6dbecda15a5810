package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
)

// limitReached: the gear officer decides.
func limitReached(x *Snapshot) []Action {
	if !x.Open || x.PH.Drop == nil {
		return none
	}
	a := Action{ID: "limit", Why: fmt.Sprintf("down %.2f, act at %.2f", *x.PH.Drop, x.PH.Limit)}
	switch x.PH.State {
	case bath.PHPast:
		a.Urgency, a.Say, a.Kind = Now, "Over the limit: gear officer decides, top up or drain", "drain"
	case bath.PHAtLimit:
		a.Urgency, a.Say, a.Kind = Today, "At the limit: read again, then the gear officer decides", "reading"
	case bath.PHWatch:
		a.Urgency, a.Say, a.Kind = Soon, "Getting close to the limit: have soap at hand", "reading"
	default:
		return none
	}
	return one(a)
}

// doubtfulReading: the pH went up and nobody logged why.
func doubtfulReading(x *Snapshot) []Action {
	n := len(x.PH.Doubtful)
	if n == 0 {
		return none
	}
	d := x.PH.Doubtful[n-1]
	if x.PH.Last != nil && x.PH.Last.At.After(d.At) {
		return none // a later reading settled it
	}
	return one(Action{
		ID: "doubt", Urgency: Today, Kind: "reading",
		Say: "Read again: the pH went up",
		Why: d.Why + ". Soap added, refilled, or first read before it mixed? Not trusted until then",
	})
}

// readAgain: the last reading cannot be compared with the first.
func readAgain(x *Snapshot) []Action {
	at, ok := x.PH.Again()
	if !x.Open || !ok || x.PH.State != bath.PHUnknown || x.PH.Last == nil {
		return none
	}
	return one(Action{
		ID: "read-again", Urgency: Today, Kind: "reading",
		Say: "Read again at about " + x.Sys.Temp(at),
		Why: fmt.Sprintf("last read at %s, the first at %s: not to be compared as read", x.Sys.Temp(x.PH.Last.Is.SampleC), x.Sys.Temp(at)),
	})
}

const (
	readingEvery = 7 // days
	overdueAfter = 8
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
	overdue := last.AddDate(0, 0, overdueAfter)
	switch {
	case !x.Now.Before(overdue):
		a.Urgency, a.Say = Now, "Take the weekly pH: it is overdue"
	case !x.Now.Before(start):
		a.Urgency = Today
	case !x.Now.Before(start.AddDate(0, 0, -2)):
		a.Urgency = Soon
	default:
		a.Urgency = Later
	}
	by := x.Date(start)
	if a.Urgency <= Today {
		by = "by " + x.Clock(end)
	}
	a.Why = fmt.Sprintf("due %s, last %s", by, x.Date(last))
	return one(a)
}

// readingDay is the duty day in which the next reading is due after one at
// last.
func (x *Snapshot) readingDay(last time.Time) (start, end time.Time) {
	due := last.AddDate(0, 0, readingEvery)
	if night, ok := x.State.Shifts().NextDrill(last.AddDate(0, 0, readingEvery-3)); ok {
		return x.day(night)
	}
	start, end = x.day(due)
	if end.Sub(due) <= belongsNext {
		return x.day(end)
	}
	return start, end
}
