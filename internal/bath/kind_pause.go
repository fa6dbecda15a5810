package bath

import (
	"time"

	"bathside/internal/units"
)

// Pause is ultrasound stopped with the load still in the bath: a basket is
// turned, an item lifted out.
type Pause struct {
	Why string `json:"why,omitzero"`
}

// Resume is ultrasound switched on again.
type Resume struct{}

// Abort is a wash broken off: what was in it is not clean.
type Abort struct {
	Why string `json:"why"`
}

var (
	pauseSpec = &Spec{
		Kind: "pause", Title: "Pause the wash", Scope: OfFill, Role: Crew,
		New: func() Body { return new(Pause) },
		Fields: []Field{
			field("why", "why", "turn the basket", func(p *Pause) *string { return &p.Why }).optional("ultrasound off first, then a hand goes in"),
		},
	}
	resumeSpec = &Spec{
		Kind: "resume", Title: "Go on with the wash", Scope: OfFill, Role: KeyHolder,
		New: func() Body { return new(Resume) },
	}
	abortSpec = &Spec{
		Kind: "abort", Title: "Break the wash off", Scope: OfFill, Role: Crew,
		New: func() Body { return new(Abort) },
		Fields: []Field{
			field("why", "why", "tones out", func(a *Abort) *string { return &a.Why }).help("what was in it is washed again from the start"),
		},
	}
)

func (p *Pause) spec() *Spec  { return pauseSpec }
func (r *Resume) spec() *Spec { return resumeSpec }
func (a *Abort) spec() *Spec  { return abortSpec }

func (p *Pause) check(v view, e Entry) error {
	if err := v.running(e); err != nil || v.restated {
		return err
	}
	if v.b.Run.Paused != nil {
		return refuse("paused", "the wash is paused already, since %s", v.s.day(*v.b.Run.Paused))
	}
	return nil
}

func (r *Resume) check(v view, e Entry) error {
	if err := v.running(e); err != nil || v.restated {
		return err
	}
	switch p := v.b.Run.Paused; {
	case p == nil:
		return refuse("not-paused", "the wash is not paused: there is nothing to go on with")
	case e.At.Before(*p):
		return refuse("before-pause", "the wash was paused %s, and %s is before that: give a time since then", v.s.day(*p), v.s.day(e.At))
	}
	if t := v.b.Tag; t != nil {
		return refuse("tagged", "the bath was red-tagged by %s: %s; break the wash off, gear out", t.By, t.Why)
	}
	return nil
}

func (a *Abort) check(v view, e Entry) error {
	if a.Why == "" {
		return refuse("missing", "why is it broken off? Say it in one line, like: tones out")
	}
	return v.running(e)
}

// running refuses what is done to a wash where none runs at the time of e.
func (v view) running(e Entry) error {
	switch r := v.b.Run; {
	case v.restated:
		return nil
	case r == nil:
		return refuse("no-wash", "no wash is running in bath %s: start one first", v.b.ID)
	case r.Ended != nil:
		return refuse("no-wash", "the wash was broken off %s: gear out, and log it", v.s.day(*r.Ended))
	case e.At.Before(r.At.Add(-Slack)):
		return refuse("before-start", "the wash was started %s, and %s is before that: give a time since then", v.s.day(r.At), v.s.day(e.At))
	case r.Left(e.At) == 0:
		return refuse("over", "the time of the wash was up %s: gear out, and log how it came out", v.s.day(r.Ends(e.At)))
	}
	return nil
}

func (p *Pause) applyBath(b *Bath, e Entry) {
	if b.Run != nil && b.Run.Ended == nil {
		r := *b.Run
		r.Paused = &e.At
		b.Run = &r
	}
}

func (r *Resume) applyBath(b *Bath, e Entry) {
	if b.Run == nil || b.Run.Paused == nil {
		return
	}
	run := b.Run.resumed(e.At)
	b.Run = &run
}

// resumed is r with its pause, where it is in one, over at t.
func (r Run) resumed(t time.Time) Run {
	if r.Paused != nil {
		r.Stood += units.SpanOf(max(0, t.Sub(*r.Paused)))
		r.Paused = nil
	}
	return r
}

func (a *Abort) applyBath(b *Bath, e Entry) {
	if b.Run != nil {
		r := *b.Run
		r = r.resumed(e.At)
		r.Ended, r.Why = &e.At, a.Why
		b.Run = &r
	}
}

func (p *Pause) say(units.System) string  { return "wash paused" + suffix(": ", p.Why) }
func (r *Resume) say(units.System) string { return "wash goes on" }
func (a *Abort) say(units.System) string  { return "wash broken off: " + a.Why }
