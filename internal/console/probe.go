package console

import (
	"fmt"
	"time"

	"charm.land/bubbles/v2/key"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// probe times how long the electrode has stood in the sample, or gear in what
// disinfects it. It starts with the tick of the clock that follows the key.
type probe struct {
	on    bool
	needs time.Duration
	since time.Time
	stood time.Duration
}

// probeStands is how long the electrode must stand before it is read, 15 to
// 20 s (common practice, no source).
const probeStands = 20 * time.Second

var probeKey = bind("ctrl+t", "time the probe: 20 s in the sample", "ctrl+t")

func (p *probe) start(needs time.Duration) { *p = probe{on: true, needs: needs} }

// tick moves the time on; done is true once, when the probe has stood enough.
func (p *probe) tick(now time.Time) (done bool) {
	if !p.on {
		return false
	}
	if p.since.IsZero() {
		p.since = now
	}
	before := p.stood
	p.stood = now.Sub(p.since)
	return before < p.needs && p.stood >= p.needs
}

func (p *probe) say() string {
	switch left := p.needs - p.stood; {
	case !p.on:
		return ""
	case p.needs != probeStands && left > 0:
		s := int(left.Round(time.Second).Seconds())
		return fmt.Sprintf("%d:%02d to go, all of it under.", s/60, s%60)
	case p.needs != probeStands:
		return "The least time is over: take it out, and log it."
	case left > 0:
		return fmt.Sprintf("Probe in the sample: %d s to go, keep it still.", int(left.Round(time.Second).Seconds()))
	}
	return "The probe has stood 20 s: type what it shows."
}

// ticker is a sheet that wants to know how time goes on, once a second.
type ticker interface{ tick(now time.Time) }

func (f *form) tick(now time.Time) {
	if !f.probe.tick(now) {
		return
	}
	name, took := "waited", "20s"
	if f.spec.Kind == "care" {
		name, took = "time", f.x.Sys.Text(units.SpanOf(f.probe.needs))
	}
	if r := f.fields.row(name); r.value() == "" {
		r.set(took)
	}
}

// times reports whether the form is one with something to time.
func (f *form) times() bool { return f.stands() > 0 }

// stands is how long what the form is about must stand at the least; 0 where
// there is nothing to time.
func (f *form) stands() time.Duration {
	switch f.spec.Kind {
	case "reading":
		return probeStands
	case "care":
		for _, b := range f.x.Bath.Batches {
			if fmt.Sprint(b.Wash) == f.fields.row("wash").value() && b.Item == f.fields.row("item").value() {
				next, _ := b.Next()
				return next.Least.Duration()
			}
		}
	}
	return 0
}

// asks is what the entry is questioned about, once, before it is kept: the
// field that answers, and the question.
func (f *form) asks(b bath.Body) (field, question string) {
	q := f.x.Asks(b)
	if f.asked || q.Field == "" {
		return "", ""
	}
	return q.Field, q.Say + " Enter again " + q.Else + "."
}

var formKeys = struct{ save, leave key.Binding }{
	save:  bind("enter", "save or go on", "enter"),
	leave: bind("esc", "leave, nothing saved", "esc"),
}

func (f *form) bindings() []key.Binding {
	b := []key.Binding{
		formKeys.save, fieldNext, formKeys.leave,
	}
	if f.times() && f.spec.Kind == "care" {
		b = append(b[:1], bind("ctrl+t", "time it: the least that the step takes", "ctrl+t"), formKeys.leave)
	} else if f.times() {
		b = append(b, probeKey)
	}
	return b
}
