package console

import (
	"fmt"
	"slices"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/guide"
	"bathside/internal/plain"
)

func (s *guides) keyWalk(msg tea.KeyPressMsg) action {
	switch {
	case key.Matches(msg, keys.esc) && s.rehearsed:
		return leavePractice{}
	case key.Matches(msg, keys.esc):
		s.walk = nil
	case key.Matches(msg, keys.back):
		s.goTo(max(0, s.walk.at-1))
	case key.Matches(msg, keys.onward):
		return s.onward()
	case key.Matches(msg, keys.enter):
		return s.enter()
	}
	return nil
}

// enter does what the step asks for.
func (s *guides) enter() action {
	step := s.walk.step()
	switch {
	case step.Repeat && len(s.waiting(step)) == 0:
		return s.pass()
	case step.Do != "":
		s.walk.asked = true
		return openForm{kind: bath.Kind(step.Do), preset: s.preset(step)}
	case step.Waits():
		left := s.left()
		if left > 0 && s.rehearsed {
			return skipAhead{left}
		}
		if left > 0 {
			return say{"Not yet: " + advise.Countdown(left) + " left. If it ran its time elsewhere, right goes on"}
		}
	}
	return s.pass()
}

// onward goes on past what was done elsewhere: a wait, or an entry that is in
// the log book already. What is ticked is ticked, and practice skips nothing.
func (s *guides) onward() action {
	step := s.walk.step()
	_, there := s.doneAlready(step)
	switch {
	case s.rehearsed:
		return say{"In a practice every step is done: press enter"}
	case step.Check != "":
		return say{"Look, then tick it: press enter"}
	case step.Repeat && len(s.waiting(step)) > 0:
		return say{"Some still waits: press enter and log it, or esc to come back later"}
	case step.Do != "" && !step.Repeat && !there:
		return say{"Nobody logged this today: press enter and log it"}
	}
	return s.pass()
}

// pass goes to the next step, or out of the guide after the last.
func (s *guides) pass() action {
	if s.walk.at+1 < len(s.walk.Steps) {
		s.goTo(s.walk.at + 1)
		return nil
	}
	w := s.walk
	if s.rehearsed {
		return practised{w.ID}
	}
	delete(s.walks, w.ID)
	s.walk = nil
	return pass{"Done: " + w.Name}
}

func (s *guides) goTo(at int) { s.walk.at, s.walk.since, s.walk.asked = at, s.now, false }

// recorded passes the step whose form was saved. One that repeats is passed by
// hand, once nothing waits.
func (s *guides) recorded(entries []bath.Entry) action {
	if s.walk == nil || !s.walk.asked {
		return nil
	}
	step := s.walk.step()
	i := slices.IndexFunc(entries, func(e bath.Entry) bool { return string(e.Kind()) == step.Do })
	if i < 0 || step.Repeat {
		return nil
	}
	if step.Do == "wash" {
		s.walk.wash = entries[i].Seq
	}
	return s.pass()
}

// waiting is what of the wash of this walk waits for an entry such as the step
// asks for again and again.
func (s *guides) waiting(step guide.Step) []advise.Action {
	return s.x.Waits(bath.Kind(step.Do), s.walk.wash)
}

// preset fills in the form of a step; one that repeats, for what waits first.
func (s *guides) preset(step guide.Step) map[string]string {
	if step.Repeat {
		return s.x.FillFirst(bath.Kind(step.Do), s.walk.wash, step.Preset)
	}
	return s.x.Fill(bath.Kind(step.Do), step.Preset)
}

// left is how long the step still waits.
func (s *guides) left() time.Duration {
	step := s.walk.step()
	if step.UntilWashed {
		return s.x.WashLeft(s.now)
	}
	return max(0, s.walk.since.Add(step.Wait.Duration()).Sub(s.now))
}

// doneAlready is the line of this duty day that did what the step asks for.
func (s *guides) doneAlready(step guide.Step) (bath.Entry, bool) {
	return s.x.Logged(s.lines, bath.Kind(step.Do), step.Preset)
}

// viewStep is one step: what, why, the caution, and what lets it pass. In a
// low window the empty rows go first.
func (s *guides) viewStep(w, h int) []string {
	step := s.walk.step()
	title := fmt.Sprintf("%s · step %d of %d", s.walk.Name, s.walk.at+1, len(s.walk.Steps))
	if s.rehearsed {
		title = "Practice: " + title
	}
	parts := [][]string{s.block("", s.t.accent.Render, step.What, w), s.block("", s.t.text.Render, step.Why, w)}
	if step.Caution != "" {
		parts = append(parts, s.block(s.t.mark("▲ ", "! "), s.t.watch.Render, step.Caution, w))
	}
	parts = append(parts, s.way(step, w))
	n := 1
	for _, p := range parts {
		n += len(p)
	}
	out := []string{s.t.title(title, w, true)}
	for _, p := range parts {
		if n+len(parts) <= h {
			out = append(out, "")
		}
		out = append(out, p...)
	}
	return out
}

// block is a paragraph of a step, with a sign before its first row.
func (s *guides) block(sign string, style func(...string) string, text string, w int) []string {
	var out []string
	for i, l := range wrap(text, w-6) {
		lead := "    "
		if i == 0 && sign != "" {
			lead = "  " + sign
		}
		out = append(out, style(lead+l))
	}
	return out
}

// way is what lets the step pass.
func (s *guides) way(step guide.Step, w int) []string {
	switch {
	case step.Check != "":
		return append(s.block(s.t.mark("▢ ", "_ "), s.t.text.Render, step.Check, w), s.hint("enter", "so it is"))
	case step.Do != "":
		return s.wayDo(step)
	}
	if left := s.left(); left > 0 {
		return []string{"    Wait: " + advise.Countdown(left) + " left", s.hint("enter", "go on, once it is over")}
	}
	return []string{"    The time is over.", s.hint("enter", "go on")}
}

func (s *guides) wayDo(step guide.Step) []string {
	spec, ok := bath.SpecOf(bath.Kind(step.Do))
	if !ok {
		return []string{"    Log it: " + step.Do}
	}
	if step.Repeat {
		return s.wayRepeat(step, spec)
	}
	line := s.hint("enter", spec.Title)
	if spec.Role != bath.Crew {
		line += s.t.muted.Render(" · by " + spec.Role.Say())
	}
	out := []string{line}
	if e, done := s.doneAlready(step); done && !s.rehearsed {
		out = append(out, s.hint("right", fmt.Sprintf("go on: %s logged it at %s", plain.Line(e.By), s.x.Clock(e.At))))
	}
	return out
}

// wayRepeat names what waits, the first of it in the form that enter opens.
func (s *guides) wayRepeat(step guide.Step, spec *bath.Spec) []string {
	waits := s.waiting(step)
	if len(waits) == 0 {
		return []string{"    Nothing waits for it any more.", s.hint("enter", "go on")}
	}
	first := waits[0].Say
	if why := waits[0].Why; why != "" {
		first += ", " + why
	}
	line := s.hint("enter", "log "+first)
	if spec.Role != bath.Crew {
		line += s.t.muted.Render(" · by " + spec.Role.Say())
	}
	if more := len(waits) - 1; more > 0 {
		return []string{line, s.t.muted.Render(fmt.Sprintf("    %d more after it", more))}
	}
	return []string{line}
}

func (s *guides) hint(k, say string) string { return "    " + s.t.key.Render(k) + " " + say }
