package advise

import (
	"fmt"
	"slices"
	"time"
)

// handoverAhead is how long before the change of shift the note is asked for
// (common practice, no source).
const handoverAhead = time.Hour

// handOver: the next shift knows what this one writes down. One crew and
// volunteers have nobody to hand over to.
func handOver(x *Snapshot) []Action {
	end := x.Shift.End
	if x.Shift.Platoon == "" || len(x.Bath.Entries) == 0 || x.Now.Before(end.Add(-handoverAhead)) {
		return none
	}
	if slices.ContainsFunc(x.State.Notes, x.ofThisShift) {
		return none
	}
	return one(Action{
		ID: "handover", Urgency: Today, Due: end, Kind: "handover",
		Say: fmt.Sprintf("Hand over to %s shift", x.State.Shifts().Next(x.Now).Platoon),
		Why: fmt.Sprintf("they come on at %s, and no note is written yet", x.Clock(end)),
	})
}
