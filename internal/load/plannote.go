package load

import "fmt"

// note says what the plan did not look at, and where it goes against a rule.
func (r Request) note(plan *WashPlan) {
	say := func(format string, args ...any) { plan.Notes = append(plan.Notes, fmt.Sprintf(format, args...)) }
	if r.Tank.Freeboard == 0 && len(plan.Washes) > 0 {
		say("The tank may overflow: its freeboard is not known. Measure from the mark to the rim.")
	}
	if t := r.timeline(plan.Washes); t.outOfOrder() > 0 {
		say("Dirtier gear goes before cleaner so that what is needed is back first.")
	}
	over := len(plan.Washes) - plan.LowerBound
	switch {
	case plan.Proved:
	case over == 0:
		say("No plan has fewer washes; one with fewer minutes is possible.")
	case over == 1:
		say("At most one wash from the best possible.")
	default:
		say("At most %d washes from the best possible.", over)
	}
}
