package advise

import (
	"fmt"

	"bathside/internal/bath"
)

// WashGuide is the guide that a member practises to become a key holder.
const WashGuide = "load-and-run"

// How often a wash is practised, and watched, before the gear officer is asked
// for a key: our judgement, no source.
const (
	practisedEnough = 3
	witnessedEnough = 2
)

// keyHolders: who has practised enough may be given a key. The gear officer
// decides, and giving any role answers.
func keyHolders(x *Snapshot) []Action {
	var out []Action
	for _, p := range x.State.Practised {
		m, err := x.State.Member(p.Member)
		if err != nil || m.Role != bath.Crew || p.Guide != WashGuide || p.Times < practisedEnough || p.Witnessed < witnessedEnough {
			continue
		}
		out = append(out, Action{
			ID: "key-holder-" + m.Name, Urgency: Soon, Kind: "member", Preset: map[string]string{"name": m.Name, "role": string(bath.KeyHolder)},
			Say: m.Name + ": key holder?",
			Why: fmt.Sprintf("practised %s %s, witnessed %s; a gear officer decides", p.Guide, times(p.Times), times(p.Witnessed)),
		})
	}
	return out
}
