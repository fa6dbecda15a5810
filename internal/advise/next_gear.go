package advise

import (
	"fmt"
	"strings"

	"bathside/internal/bath"
)

// clockOrders are the orders that clocks give.
var clockOrders = []struct {
	id, say string
	kind    bath.Kind
}{
	{"ends", "Take out of service: ", "gear"}, {"retire", "Retire ", "gear"}, {"requalify", "Have requalified: ", "gear"}, {"inspect", "Inspect ", "inspect"}, {"clean", "Wash ", ""},
}

// gearClocks: the dates of tagged gear, one action a date.
func gearClocks(x *Snapshot) (out []Action) {
	due, say := map[string][]string{}, map[string]string{}
	over := map[string]bool{}
	for _, p := range x.State.Gear {
		if p.Gone != "" {
			continue
		}
		for _, c := range Clocks(p, x.Now, x.Times) {
			if !c.Over && x.Now.Before(c.warn) {
				continue
			}
			if say[c.ID] == "" || c.Over && !over[c.ID] {
				say[c.ID] = fmt.Sprintf("%s: %s (%s)", p.Tag, c.Say, c.Source)
			}
			due[c.ID], over[c.ID] = append(due[c.ID], p.Tag), over[c.ID] || c.Over
		}
	}
	for _, o := range clockOrders {
		if tags := due[o.id]; len(tags) > 0 {
			a := Action{ID: "gear-" + o.id, Urgency: Soon, Kind: o.kind, Say: o.say + fewTags(tags), Why: say[o.id], Preset: clockPreset(o.kind, tags)}
			if over[o.id] {
				a.Urgency = Today
			}
			out = append(out, a)
		}
	}
	return out
}

func clockPreset(kind bath.Kind, tags []string) map[string]string {
	switch kind {
	case "inspect":
		return map[string]string{"tags": strings.Join(tags, ", ")}
	case "gear":
		return map[string]string{"tag": tags[0]}
	}
	return nil
}

// fewTags names three tags at the most.
func fewTags(tags []string) string {
	if n := len(tags); n > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(tags[:3], ", "), n-3)
	}
	return strings.Join(tags, ", ")
}
