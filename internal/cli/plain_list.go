package cli

import (
	"context"
	"errors"
	"io"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/report"
	"bathside/internal/station"
)

// job is a line of the list, and what it does.
type job struct {
	say string
	do  func() error
}

// talkOn says how the bath stands, then lists what can be done until somebody
// leaves.
func (a *app) talkOn(ctx context.Context, st *station.Station) error {
	t, err := a.newTalk(ctx, st)
	if err != nil {
		return err
	}
	if err := report.WriteStatus(t.text(), t.x); err != nil {
		return err
	}
	for {
		if leave, err := t.turn(); err != nil || leave {
			return t.end(err)
		}
	}
}

// end is how a sitting ends: neither the end of the input nor a dot is a
// mistake.
func (t *talk) end(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, errLeft) {
		return nil
	}
	return err
}

// turn shows the list once and does what is chosen. What goes wrong in it is
// told, and the list comes again.
func (t *talk) turn() (leave bool, err error) {
	if err := t.look(); err != nil {
		return false, err
	}
	jobs := t.jobs()
	var all []option
	t.say("")
	if tag := t.x.TagSay(); tag != "" {
		t.say("%s.", tag)
	}
	if run := t.x.RunSay(t.now()); run != "" {
		t.say("%s.", run)
	}
	for _, j := range jobs {
		all = append(all, option{say: j.say})
	}
	t.say("What is to be done?")
	i, err := t.choose("Type its number, then enter", "", append(all, option{say: "leave", number: "0", keys: []string{"q"}}))
	switch {
	case errors.Is(err, errLeft) || i == len(jobs):
		return true, nil
	case err != nil || i < 0:
		return false, err
	}
	t.say("")
	err = jobs[i].do()
	if errors.Is(err, io.EOF) || errors.Is(err, errInterrupted) {
		return false, err
	}
	if err != nil && !errors.Is(err, errLeft) {
		t.wrong(err)
	}
	return false, nil
}

// jobs are what to do next, then what can be done at any time.
func (t *talk) jobs() []job {
	var jobs []job
	for _, a := range t.x.Next {
		say := a.Say
		if a.Why != "" {
			say += ": " + a.Why
		}
		jobs = append(jobs, job{say, func() error { return t.next(a) }})
	}
	jobs = append(jobs,
		job{"something else to log", t.anything},
		job{"decide: top up, drain or keep", t.decideAloud},
		job{"walk a guide", t.chooseGuide},
		job{"hand over to the next shift", t.handOverAloud},
		job{"hear how the bath stands", func() error { return report.WriteStatus(t.text(), t.x) }},
	)
	for _, b := range t.x.State.Baths {
		if b.ID != t.x.Bath.ID {
			jobs = append(jobs, job{"go to bath " + b.ID, func() error { return t.goTo(b.ID) }})
		}
	}
	return jobs
}

// next does what Next says: it asks for the entry that does it.
func (t *talk) next(a advise.Action) error {
	spec, ok := bath.SpecOf(a.Kind)
	switch {
	case !ok:
		t.say("%s: %s.", a.Say, a.Why)
		return nil
	case a.Kind == "decision" && a.Preset == nil:
		return t.decideAloud()
	}
	_, err := t.newForm(spec, a.Preset).run()
	return err
}

// anything asks which kind of entry, then for the entry.
func (t *talk) anything() error {
	specs := bath.Specs()
	var all []option
	for _, s := range specs {
		say := s.Title
		if s.Role != bath.Crew {
			say += ", by " + s.Role.Say()
		}
		all = append(all, option{say: say, keys: []string{string(s.Kind)}})
	}
	i, err := t.choose("Which? Its number or its word, like reading; enter goes back", "", all)
	switch {
	case err != nil || i < 0:
		return err
	case specs[i].Kind == "decision":
		return t.decideAloud()
	}
	_, err = t.newForm(specs[i], nil).run()
	return err
}

// lastLines reads out the newest lines, for whoever wants to cross one out.
func (t *talk) lastLines() error {
	const most = 12
	lines, err := t.st.Lines(0, most)
	for _, e := range lines {
		e.At = t.x.Local(e.At)
		t.say("%s", report.Line(e, t.x.Sys, t.x.Times, t.x.State.Struck[e.Seq]))
	}
	return err
}

func (t *talk) goTo(id string) error {
	t.flags.bath = id
	if err := t.look(); err != nil {
		return err
	}
	return report.WriteStatus(t.text(), t.x)
}

// handOverAloud reads out the shift, and takes a note for the next.
func (t *talk) handOverAloud() error {
	lines, err := t.st.Lines(0, shiftLines)
	if err != nil {
		return err
	}
	if err := report.WriteHandover(t.text(), t.x, t.x.ThisShift(lines)); err != nil {
		return err
	}
	t.say("")
	note, err := t.ask("A note for the next shift; enter without one", "")
	if err != nil || note == "" {
		return err
	}
	spec, _ := bath.SpecOf("handover")
	f := t.newForm(spec, map[string]string{"note": note})
	f.only = true
	_, err = f.run()
	return err
}
