// Package guide holds the guides that lead a member through a job at the bath
// one step at a time, and the short card of each item type. Guides are data:
// TOML files that say what to do and why, and name the entry that records it.
//
// It draws nothing, records nothing and knows no rule of the bath: a face
// shows the step and opens the form of its entry, and the door refuses what
// may not be.
package guide

import (
	"fmt"
	"slices"
	"strings"

	"bathside/internal/units"
)

// Guide is one job, step by step.
type Guide struct {
	ID    string `json:"id"`   // as typed in commands, and the name of its file: "load-and-run"
	Name  string `json:"name"` // as on screen: "Load and run"
	For   string `json:"for"`  // what it is for, one line
	Steps []Step `json:"steps"`
}

// Step is one thing to do. Exactly one of Do, Check and a wait lets it pass.
type Step struct {
	What    string `json:"what"` // an order: "Take the regulators off"
	Why     string `json:"why"`
	Caution string `json:"caution,omitzero"` // where the hand is about to act

	Do     string            `json:"do,omitzero"`      // the kind of entry that records it
	Preset map[string]string `json:"preset,omitempty"` // fields of that entry, by name; empty ones must be given
	Repeat bool              `json:"repeat,omitzero"`  // until nothing of the wash waits for such an entry
	Check  string            `json:"check,omitzero"`   // a sentence that is ticked
	Wait   units.Span        `json:"wait_s,omitzero"`  // at least so long

	// UntilWashed waits for the timer of the wash that is in the bath, which
	// no file can know.
	UntilWashed bool `json:"until_washed,omitzero"`
}

// Waits reports whether the step passes by waiting.
func (s Step) Waits() bool { return s.Wait > 0 || s.UntilWashed }

// Find is the guide with that id, as it is typed: capitals and spaces for
// hyphens do not matter. The error names the ids there are.
func Find(guides []Guide, name string) (Guide, error) {
	id := strings.Join(strings.Fields(strings.ToLower(name)), "-")
	i := slices.IndexFunc(guides, func(g Guide) bool { return g.ID == id })
	if i < 0 {
		return Guide{}, fmt.Errorf("there is no guide %q: there are %s", cut(name), strings.Join(ids(guides), ", "))
	}
	return guides[i], nil
}

func ids(guides []Guide) []string {
	var all []string
	for _, g := range guides {
		all = append(all, g.ID)
	}
	return all
}

// cut keeps what somebody typed within a sentence.
func cut(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
