package console

import (
	"fmt"
	"time"

	"charm.land/bubbles/v2/key"

	"bathside/internal/bath"
)

// probe times how long the electrode has stood in the sample. It starts with
// the tick of the clock that follows the key.
type probe struct {
	on    bool
	since time.Time
	stood time.Duration
}

// probeStands is how long the electrode must stand before it is read, 15 to
// 20 s (common practice, no source).
const probeStands = 20 * time.Second

var probeKey = bind("ctrl+t", "time the probe: 20 s in the sample", "ctrl+t")

func (p *probe) start() { *p = probe{on: true} }

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
	return before < probeStands && p.stood >= probeStands
}

func (p *probe) say() string {
	switch left := probeStands - p.stood; {
	case !p.on:
		return ""
	case left > 0:
		return fmt.Sprintf("Probe in the sample: %d s to go, keep it still.", int(left.Round(time.Second).Seconds()))
	}
	return "The probe has stood 20 s: type what it shows."
}

// ticker is a sheet that wants to know how time goes on, once a second.
type ticker interface{ tick(now time.Time) }

func (f *form) tick(now time.Time) {
	if f.probe.tick(now) && f.fields.row("waited").value() == "" {
		f.fields.row("waited").set("20s")
	}
}

// times reports whether the form is one with a probe to time.
func (f *form) times() bool { return f.spec.Kind == "reading" }

// asks is what a reading is questioned about, once, before it is kept: the
// field that answers, and the question.
func (f *form) asks(b bath.Body) (field, question string) {
	r, ok := b.(*bath.Reading)
	if !ok || f.asked {
		return "", ""
	}
	say, field := f.x.Preview(r)
	switch {
	case field == "rose":
		return field, "The pH went up with no soap logged. Why? Enter again keeps it, not trusted."
	case field == "again" && r.Baseline:
		return field, "A first reading wants a second number within 0.05: rinse, dip again. Enter again keeps it with one."
	case field != "":
		return field, say + " Enter again keeps it, not trusted."
	}
	return "", ""
}

func (f *form) bindings() []key.Binding {
	b := []key.Binding{
		bind("enter", "save or go on", "enter"), bind("tab", "next field", "tab"), bind("esc", "leave, nothing saved", "esc"),
	}
	if f.times() {
		b = append(b, probeKey)
	}
	return b
}
