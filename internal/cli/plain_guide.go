package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/guide"
	"bathside/internal/station"
)

// guideByTalk is guide NAME --plain at a terminal.
func (a *app) guideByTalk(ctx context.Context, st *station.Station, g guide.Guide) error {
	t, err := a.newTalk(ctx, st)
	if err != nil {
		return err
	}
	return t.end(t.walkGuide(g))
}

// chooseGuide asks which guide to walk.
func (t *talk) chooseGuide() error {
	all, err := t.guides()
	if err != nil {
		return err
	}
	var names []option
	for _, g := range all {
		names = append(names, option{say: g.Name + ": " + g.For, keys: []string{g.ID}})
	}
	i, err := t.choose("Which? Enter goes back", "", names)
	if err != nil || i < 0 {
		return err
	}
	return t.walkGuide(all[i])
}

// plainWalk is a guide that is walked by enter, a step at a time. One that was
// left goes on where it was.
type plainWalk struct {
	*talk
	guide.Guide
	at    int
	since time.Time // when the step began
	wash  uint64    // the line of the wash of this walk; 0 before it
}

func (t *talk) walkGuide(g guide.Guide) error {
	w, begun := t.walks[g.ID]
	if !begun {
		w = &plainWalk{talk: t, Guide: g, since: t.now()}
		t.walks[g.ID] = w
	}
	t.say("%s: %s. At each step b goes back, l logs something else, a dot leaves; what was logged is kept.", g.Name, g.For)
	for w.at < len(w.Steps) {
		w.readOut()
		to, err := w.pass()
		if err != nil {
			return err
		}
		w.at, w.since = to, t.now()
	}
	delete(t.walks, g.ID)
	t.say("Done: %s.", g.Name)
	return nil
}

func (w *plainWalk) step() guide.Step { return w.Steps[w.at] }

// readOut says what the step is about.
func (w *plainWalk) readOut() {
	step := w.step()
	w.say("")
	w.say("Step %d of %d. %s", w.at+1, len(w.Steps), stop(step.What))
	w.say("%s", step.Why)
	if step.Caution != "" {
		w.say("Caution: %s", step.Caution)
	}
}

// pass asks until the step is passed, and gives the one to go to.
func (w *plainWalk) pass() (to int, err error) {
	for {
		if err := w.look(); err != nil {
			return 0, err
		}
		typed, err := w.ask(w.way(), "")
		if err != nil {
			return 0, err
		}
		passed := false
		switch strings.ToLower(typed) {
		case "b":
			return max(0, w.at-1), nil
		case "l":
			err = w.anything()
		case "", "n":
			passed, err = w.enter(typed != "")
		default:
			w.say("%s is none of it: enter, b, l or a dot.", quote(typed))
		}
		switch {
		case errors.Is(err, errLeft): // a form, not the guide
		case err != nil:
			return 0, err
		case passed:
			return w.at + 1, nil
		}
	}
}

// way is what lets the step pass, as a question.
func (w *plainWalk) way() string {
	kind := bath.Kind(w.step().Do)
	switch waits := w.x.Waits(kind, w.wash); {
	case w.step().Check != "":
		return "Look: " + w.step().Check + ". Enter, so it is"
	case w.step().Waits() && w.left() > 0:
		return "Wait: " + advise.Countdown(w.left()) + " left. Enter when it is over; n where it ran elsewhere"
	case w.step().Waits():
		return "The time is over. Enter goes on"
	case w.step().Repeat && len(waits) == 0:
		return "Nothing waits for it any more. Enter goes on"
	case w.step().Repeat:
		return fmt.Sprintf("%d to log, first %s. Enter asks for it", len(waits), waits[0].Say)
	}
	return w.wayToLog(kind)
}

func (w *plainWalk) wayToLog(kind bath.Kind) string {
	say := w.step().Do
	if spec, ok := bath.SpecOf(kind); ok {
		say = spec.Title
		if spec.Role != bath.Crew {
			say += ", by " + spec.Role.Say()
		}
	}
	say = "Enter asks for it: " + say
	if e, there := w.logged(); there {
		say += fmt.Sprintf("; n goes on, %s logged it at %s", e.By, w.x.Clock(e.At))
	}
	return say
}

// enter does what the step asks for, and says whether it is passed. onward goes
// on past what was done elsewhere; what is looked at, nobody passes so.
func (w *plainWalk) enter(onward bool) (passed bool, err error) {
	waits := w.x.Waits(bath.Kind(w.step().Do), w.wash)
	_, there := w.logged()
	switch {
	case w.step().Check != "" && onward:
		w.say("Look, then press enter.")
		return false, nil
	case w.step().Check != "" || w.step().Repeat && len(waits) == 0:
		return true, nil
	case w.step().Waits() && w.left() > 0 && !onward:
		w.say("Not yet.")
		return false, nil
	case w.step().Waits():
		return true, nil
	case onward && w.step().Repeat:
		w.say("Some still waits: log it, or leave by a dot and come back later.")
		return false, nil
	case onward && !there:
		w.say("Nobody logged this today: press enter and log it.")
		return false, nil
	case onward:
		return true, nil
	}
	return w.logStep()
}

// logStep asks for the entry of the step. A step that repeats is passed once
// nothing waits.
func (w *plainWalk) logStep() (passed bool, err error) {
	spec, ok := bath.SpecOf(bath.Kind(w.step().Do))
	if !ok {
		return true, nil // not reached: guides are held against the kinds there are
	}
	preset := w.x.Fill(spec.Kind, w.step().Preset)
	if w.step().Repeat {
		preset = w.x.FillFirst(spec.Kind, w.wash, w.step().Preset)
	}
	e, err := w.newForm(spec, preset).run()
	if err != nil {
		return false, err
	}
	if spec.Kind == "wash" {
		w.wash = e.Seq
	}
	return !w.step().Repeat, nil
}

// logged is the line of this duty day that did what the step asks for.
func (w *plainWalk) logged() (bath.Entry, bool) {
	const most = 400 // more than a duty day writes
	lines, err := w.st.Lines(0, most)
	if err != nil || w.step().Do == "" || w.step().Repeat {
		return bath.Entry{}, false
	}
	return w.x.Logged(lines, bath.Kind(w.step().Do), w.step().Preset)
}

// left is how long the step still waits.
func (w *plainWalk) left() time.Duration {
	if w.step().UntilWashed {
		return w.x.WashLeft(w.now())
	}
	return max(0, w.since.Add(w.step().Wait.Duration()).Sub(w.now()))
}
