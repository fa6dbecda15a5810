package advise

import "strings"

// CareWaits lists what came out of the wash of a line and is not back in
// service, a batch at a time, with the entry that takes it one step on. Wash 0
// is every wash. Fields that are preset empty must be given.
func (x *Snapshot) CareWaits(wash uint64) []Action {
	var out []Action
	for _, b := range x.Bath.Batches {
		if wash != 0 && b.Wash != wash || b.Hold != nil {
			continue
		}
		a := Action{Kind: "ready", Say: b.Say() + ": back in service", Preset: CarePreset(b)}
		if step, ok := b.Next(); ok {
			a.Kind, a.Say, a.Why = "care", b.Say()+": "+step.ID, strings.TrimPrefix(leastSay(step, x.Sys), "; ")
		}
		out = append(out, a)
	}
	return out
}
