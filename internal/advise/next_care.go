package advise

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// careSaid is how long after its wash Next speaks of gear that is not back. A
// station that does not log its care is not told off for ever; the Gear screen
// has the rest.
const careSaid = 3 * 24 * time.Hour

// careOrders are the steps of care as orders, in the order in which they are
// shown.
var careOrders = []struct{ step, say string }{
	{"rinse", "Rinse"}, {"disinfect", "Disinfect"}, {"dry", "Dry"}, {"inspect", "Inspect"}, {"refit", "Put together"}, {"test", "Test"},
}

// careDue: what came out of the bath goes through its steps, and back.
func careDue(x *Snapshot) (out []Action) {
	for _, o := range careOrders {
		if waits := x.inCare(o.step); len(waits) > 0 {
			first := waits[0]
			step, _ := first.Next()
			out = append(out, Action{
				ID: "care-" + o.step, Urgency: Today, Kind: "care", Preset: CarePreset(first),
				Say: o.say + " " + batchesSay(waits), Why: x.careSince(first) + leastSay(step, x.Sys),
			})
		}
	}
	if done := x.inCare(bath.GearReady); len(done) > 0 {
		out = append(out, Action{
			ID: "care-ready", Urgency: Today, Kind: "ready", Preset: CarePreset(done[0]),
			Say: "Back in service: " + batchesSay(done), Why: x.careSince(done[0]) + "; every step is done, a key holder releases it",
		})
	}
	return out
}

// CarePreset fills in the form that takes a batch one step on: its next step,
// or its release. What is empty in it is asked for first.
func CarePreset(b bath.Batch) map[string]string {
	preset := map[string]string{"item": b.Item, "wash": fmt.Sprint(b.Wash)}
	step, more := b.Next()
	switch {
	case more:
		preset["step"] = step.ID
	case bath.Certified(b.Item):
		preset["serial"], preset["findings"], preset["action"] = b.Tags.String(), "", ""
	}
	if step.Least > 0 {
		preset["time"] = ""
	}
	if step.PPM > 0 {
		preset["ppm"] = ""
	}
	if step.ID == "test" {
		preset["tester"] = ""
	}
	return preset
}

// inCare lists what was washed lately and waits for a step, oldest first.
func (x *Snapshot) inCare(where string) (out []bath.Batch) {
	for _, b := range x.Bath.Batches {
		if b.Where() == where && x.Now.Sub(b.At) <= careSaid {
			out = append(out, b)
		}
	}
	return out
}

// batchesSay counts items over batches: "Mask × 8, Helmet shell × 2".
func batchesSay(batches []bath.Batch) string {
	var names []string
	count := map[string]int{}
	for _, b := range batches {
		if count[b.Name] == 0 {
			names = append(names, b.Name)
		}
		count[b.Name] += b.Count
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%s × %d", name, count[name])
	}
	return strings.Join(names, ", ")
}

// careSince says when a batch came to where it stands.
func (x *Snapshot) careSince(b bath.Batch) string {
	s := "washed " + x.Clock(b.At)
	if n := len(b.Done); n > 0 {
		s = fmt.Sprintf("%s %s", bath.StepDone(b.Steps[n-1].ID), x.Clock(b.Since()))
	}
	return s
}

// leastSay is what a step takes at the least: "; 2 min at least, 50 ppm".
func leastSay(s bath.CareStep, sys units.System) string {
	var parts []string
	if s.Least > 0 {
		parts = append(parts, sys.Text(s.Least)+" at least")
	}
	if s.PPM > 0 {
		parts = append(parts, fmt.Sprintf("%g ppm", s.PPM))
	}
	if len(parts) == 0 {
		return ""
	}
	return "; " + strings.Join(parts, ", ")
}

// gearHeld: what is held waits for a gear officer.
func gearHeld(x *Snapshot) []Action {
	var say []string
	var preset map[string]string
	add := func(name string, h *bath.Held, field, value string) {
		say = append(say, name+": "+h.Why)
		if preset == nil {
			preset = map[string]string{field: value}
		}
	}
	for _, p := range x.State.Gear {
		if p.Hold != nil && p.Gone == "" {
			add(p.Tag, p.Hold, "tag", p.Tag)
		}
	}
	for _, b := range x.Bath.Batches {
		if b.Hold != nil {
			add(b.Say(), b.Hold, "wash", fmt.Sprint(b.Wash))
		}
	}
	if len(say) == 0 {
		return none
	}
	a := Action{ID: "gear-held", Urgency: Soon, Kind: "gear-release", Preset: preset, Say: "Held gear waits for the gear officer", Why: say[0] + moreSay(len(say)-1)}
	if len(say) > 1 {
		a.From = say
	}
	return one(a)
}

// lookBack: gear without a tag that went back from a contaminated bath can
// only be fetched.
func lookBack(x *Snapshot) []Action {
	if !x.contaminated() || x.Bath.Tag.Wash == 0 {
		return none
	}
	var say []string
	var from time.Time
	for _, e := range x.Bath.Entries {
		if e.Seq == x.Bath.Tag.Wash {
			from = e.At
		}
		if w, ok := e.Body.(*bath.Wash); ok && !from.IsZero() {
			say = append(say, fmt.Sprintf("%s, washed %s, line %d", runSay(bath.Run{Items: w.Items}), x.Clock(e.At), e.Seq))
		}
	}
	if len(say) == 0 {
		return none
	}
	return one(Action{
		ID: "look-back", Urgency: Now, Kind: "gear-hold", Preset: map[string]string{"why": "contaminated bath: " + x.Bath.Tag.Why},
		Say: "Fetch back what was washed since " + x.Clock(from) + ", tag it red",
		Why: say[0] + moreSay(len(say)-1) + "; tagged gear is held already", From: say,
	})
}

func moreSay(more int) string {
	if more <= 0 {
		return ""
	}
	return fmt.Sprintf("; and %d more", more)
}
