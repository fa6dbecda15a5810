package advise

import (
	"slices"
	"time"

	"bathside/internal/bath"
)

// Urgency says how soon an action is wanted.
type Urgency int

// The urgencies, most urgent first.
const (
	Now Urgency = iota
	Today
	Soon
	Later
)

func (u Urgency) String() string { return [...]string{"now", "today", "soon", "later"}[u] }

// Action is something to do next, with its reason.
type Action struct {
	ID      string // stable: "reading", "filter"
	Urgency Urgency
	Due     time.Time // zero where it has no date
	Say     string    // what to do, as an order: "Take the weekly pH"
	Why     string    // the reason, without a full stop: "due by Tue 07:00, last 16 Mar"
	Kind    bath.Kind // the entry that does it; "" where none does

	// From is where the figures in it come from, a sentence a line; none where
	// there is nothing to add to Why.
	From []string

	// Preset fills in fields of the entry by name, where the action says more
	// than its kind: {"baseline": "yes"}.
	Preset map[string]string
}

// A rule looks at a snapshot and says what is to be done, if anything.
type rule func(*Snapshot) []Action

// The rules, in the order in which equal urgencies are shown.
var (
	rulesInUse = []rule{
		redTag, clockBehind, tooHot, heaterDry, washResult, handOver,
		refill, fillBath, dose, warmUp, heatBy, degas, firstReading, cooledPair,
		decided, limitReached, drainLimits, coolForDrain, doubtfulReading, readAgain, readingDue, meterDue,
		careDue, filterDue, checkMark, washedAgain, slowWarmUp, cartridges, duties, limitDate, changed,
		permissionLapses, heldWaste, electrodeAge, buffersExpire, gearHeld, gearClocks, papersMissing, orderSoap, emptyShelf, keyHolders, backupDue,
	}

	// rulesTagged leaves out what readies a bath for washing.
	rulesTagged = []rule{
		redTag, clockBehind, tooHot, heaterDry, washResult, handOver, refill, cooledPair,
		decided, limitReached, drainLimits, coolForDrain, doubtfulReading, readAgain, readingDue, meterDue,
		careDue, checkMark, washedAgain, slowWarmUp, cartridges, duties, limitDate, changed,
		permissionLapses, heldWaste, electrodeAge, buffersExpire, gearHeld, gearClocks, papersMissing, orderSoap, emptyShelf, keyHolders, backupDue,
	}

	// rulesContaminated leaves the liquid and the filter alone, and the cartridges
	// until the bath is drained.
	rulesContaminated = []rule{redTag, clockBehind, tooHot, lookBack, washResult, handOver, refill, foulCartridges, heldWaste, careDue, duties, gearHeld, backupDue}
)

// rules are those that may speak, by the red tag on the bath.
func (x *Snapshot) rules() []rule {
	switch {
	case x.Bath.Tag == nil:
		return rulesInUse
	case x.contaminated():
		return rulesContaminated
	}
	return rulesTagged
}

func next(x *Snapshot) []Action {
	var out []Action
	for _, r := range x.rules() {
		out = append(out, r(x)...)
	}
	slices.SortStableFunc(out, func(a, b Action) int { return int(a.Urgency) - int(b.Urgency) })
	return out
}

// none is what a rule gives that has nothing to say.
var none []Action

func one(a Action) []Action { return []Action{a} }

// Clock prints a time of today as 07:10 or 7:10 am, of another day with its day.
func (x *Snapshot) Clock(t time.Time) string {
	t = t.In(x.Now.Location())
	switch d := x.Now.Sub(t).Abs(); {
	case sameDate(t, x.Now):
		return x.Times.Clock(t)
	case d < 6*24*time.Hour:
		return t.Format("Mon ") + x.Times.Clock(t)
	}
	return x.Times.DateClock(t)
}

// Date prints a day: today, Tuesday, or 19 Nov where it is six days away or
// more.
func (x *Snapshot) Date(t time.Time) string {
	t = t.In(x.Now.Location())
	switch d := x.Now.Sub(t); {
	case sameDate(t, x.Now):
		return "today"
	case sameDate(t, x.Now.AddDate(0, 0, -1)):
		return "yesterday"
	case sameDate(t, x.Now.AddDate(0, 0, 1)):
		return "tomorrow"
	case d > -6*24*time.Hour && d < 6*24*time.Hour:
		return t.Format("Monday")
	case t.Year() != x.Now.Year():
		return x.Times.FullDate(t)
	}
	return x.Times.Date(t)
}

// Local is t on the clock of the station, for Times to print.
func (x *Snapshot) Local(t time.Time) time.Time { return t.In(x.Now.Location()) }

// dueSay says when something is or was due.
func (x *Snapshot) dueSay(t time.Time) string {
	if t.Before(x.Now) && !sameDate(t, x.Now) {
		return "was due " + x.Date(t)
	}
	return "due " + x.Date(t)
}

func sameDate(a, b time.Time) bool {
	ay, am, ad := a.Date()
	by, bm, bd := b.Date()
	return ay == by && am == bm && ad == bd
}
