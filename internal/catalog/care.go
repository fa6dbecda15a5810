package catalog

import "bathside/internal/units"

// Check is something to look at before an item goes in.
type Check struct {
	Say string // what must be so, ticked at the load: "light is closed"
	Why string

	// What stays out while it is not so, what to do with it instead, and whom
	// to wake. All are empty where looking is all that is asked.
	Out, Instead, Wake string
}

// Refusal is what the crew reads when the check fails, or "".
func (c Check) Refusal() string {
	if c.Out == "" {
		return ""
	}
	return KeptOut(c.Out, c.Instead, c.Wake)
}

// Step is one step of the care after a wash. Its numbers are zero where the
// step has none.
type Step struct {
	ID  string // a word of [StepWords]
	Say string

	Least  units.Span // takes at least so long
	PPM    float64    // of available chlorine or iodine, at least
	Limit  Limit      // of the water or air that touches the item
	Source string     // of the three
}

// StepWords are the kinds of care step there are.
var StepWords = []string{"rinse", "disinfect", "dry", "inspect", "refit", "test"}

func readCheck(t *table) Check {
	check := Check{Say: t.text("say"), Why: t.text("why")}
	if t.has("out") || t.has("instead") || t.has("wake") {
		check.Out, check.Instead, check.Wake = t.text("out"), t.text("instead"), readWake(t)
	}
	return check
}

// readStep reads one step of care; a number in it asks for its source.
func readStep(t *table) Step {
	step := Step{ID: t.word("step", StepWords...), Say: t.text("say")}
	if t.has("least") {
		step.Least = quantity[units.Span](t, "least", "2 min")
	}
	if t.has("ppm") {
		step.PPM = t.number("ppm")
	}
	if t.has("limit") {
		step.Limit.Printed = t.text("limit")
		step.Limit.At = parse[units.Temperature](t, "limit", step.Limit.Printed)
	}
	if t.has("source") || t.has("least") || t.has("ppm") || t.has("limit") {
		step.Source = t.text("source")
	}
	if step.Limit.Printed != "" {
		step.Limit.Source = step.Source
	}
	return step
}
