package report

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/guide"
	"bathside/internal/units"
)

// WriteGuide writes a guide to be read at the bath or on paper: what, why, the
// caution, and what lets each step pass.
func WriteGuide(w io.Writer, g guide.Guide, sys units.System) error {
	t := text{paper: true}
	t.say(g.Name + ": " + g.For)
	for i, s := range g.Steps {
		t.blank()
		t.hang(fmt.Sprintf("%2d", i+1), 4, s.What)
		t.hang("", 4, s.Why)
		if s.Caution != "" {
			t.hang("  !", 4, s.Caution)
		}
		t.hang("", 4, wayThrough(s, sys))
	}
	_, err := io.WriteString(w, t.String())
	return err
}

// wayThrough is what lets a step pass.
func wayThrough(s guide.Step, sys units.System) string {
	switch {
	case s.Check != "":
		return "[ ] " + s.Check
	case s.UntilWashed:
		return "Wait until the time of the wash is over."
	case s.Wait > 0:
		return "Wait " + sys.Text(s.Wait) + "."
	}
	title, cmd := s.Do, "bathside log "+s.Do
	if spec, ok := bath.SpecOf(bath.Kind(s.Do)); ok {
		title = spec.Title
		cmd += flags(spec, s.Preset)
	}
	if s.Repeat {
		cmd += ", for each batch of the wash"
	}
	return fmt.Sprintf("Log it: %s (%s)", title, cmd)
}

// flags are the fields that a guide fills in, as a command line has them.
func flags(spec *bath.Spec, preset map[string]string) string {
	var out string
	for _, name := range slices.Sorted(maps.Keys(preset)) {
		out += " --" + name
		if preset[name] == "" {
			out += " ..."
		} else if f, ok := spec.Field(name); !ok || !f.YesNo {
			out += " " + preset[name]
		}
	}
	return out
}

// WriteCard writes the card of an item type.
func WriteCard(w io.Writer, c guide.Card) error {
	t := text{paper: true}
	t.say(c.Name)
	for _, b := range c.Before {
		t.hang("  [ ]", 6, b.Say+": "+b.Why)
	}
	t.hang("  basket:", 12, c.Basket)
	t.hang("  minutes:", 12, c.Minutes+" ("+c.Source+")")
	t.hang("  hottest:", 12, c.Limit)
	for i, after := range c.After {
		label := ""
		if i == 0 {
			label = "  after:"
		}
		t.hang(label, 12, after)
	}
	_, err := io.WriteString(w, t.String())
	return err
}

// WriteGuides lists the guides and the cards there are.
func WriteGuides(w io.Writer, all []guide.Guide, cards []guide.Card) error {
	t := text{paper: true}
	for _, g := range all {
		t.hang(g.ID, 18, fmt.Sprintf("%s, %d steps: %s", g.Name, len(g.Steps), g.For))
	}
	var ids []string
	for _, c := range cards {
		ids = append(ids, c.ID)
	}
	t.hang("cards", 18, strings.Join(ids, ", "))
	_, err := io.WriteString(w, t.String())
	return err
}
