package console

import (
	"time"

	"bathside/internal/plain"
)

// toast is a sentence in place of the keys in the last row. What went well goes
// by itself; what went wrong stays until a key. Both are kept in the list of
// messages.
type toast struct {
	text  string
	bad   bool
	until time.Time // zero: until a key
	quiet bool      // it came by itself: it waits until nobody types any more
	since time.Time // when a quiet one came
	typed time.Time // the last key

	said []message // the newest last
	now  func() time.Time
}

// message is something that was said.
type message struct {
	at   time.Time
	text string
	bad  bool
}

const (
	// toastFor is how long good news stays.
	toastFor = 4 * time.Second
	// mostSaid is how many messages are kept.
	mostSaid = 200
	// A message that came by itself takes no key for its answer before there
	// was a pause in typing, or it was in sight for long enough.
	typingPause = 400 * time.Millisecond
	longEnough  = 1500 * time.Millisecond
)

// pass says what went well. It counts from the clock, where that is ahead of
// now, the last tick: a machine that stood still must not wipe it away unseen.
func (t *toast) pass(text string, now time.Time) {
	if clock := t.time(); clock.After(now) {
		now = clock
	}
	t.keep(text, false)
	t.text, t.bad, t.quiet, t.until = text, false, false, now.Add(toastFor)
}

func (t *toast) stay(text string) {
	t.keep(text, true)
	t.text, t.bad, t.quiet, t.until = text, true, false, time.Time{}
}

// appear is stay for what nobody asked for: whoever is typing must not wipe it
// away unread.
func (t *toast) appear(text string) {
	t.stay(text)
	t.quiet, t.since = true, t.time()
}

func (t *toast) time() time.Time {
	if t.now == nil {
		return time.Time{}
	}
	return t.now()
}

func (t *toast) keep(text string, bad bool) {
	t.said = append(t.said, message{t.time(), text, bad})
	t.said = t.said[max(0, len(t.said)-mostSaid):]
}

func (t *toast) keyPressed() {
	now := t.time()
	early := t.quiet && now.Sub(t.typed) < typingPause && now.Sub(t.since) < longEnough
	t.typed = now
	if t.bad && !early {
		t.clear()
	}
}

func (t *toast) clear() { t.text, t.bad, t.quiet, t.until = "", false, false, time.Time{} }

func (t *toast) tick(now time.Time) {
	if !t.until.IsZero() && now.After(t.until) {
		t.clear()
	}
}

func (t *toast) view(th *theme) string {
	switch {
	case t.text == "":
		return ""
	case t.bad:
		return " " + th.bad.Render(th.mark("✗ ", "X ")+plain.Line(t.text))
	}
	return " " + th.ok.Render(th.mark("✓ ", "+ ")+plain.Line(t.text))
}
