package console

import "time"

// toast is a sentence in place of the footer. What went well goes by itself;
// what went wrong stays until a key.
type toast struct {
	text  string
	bad   bool
	until time.Time // zero: until a key
}

// toastFor is how long good news stays.
const toastFor = 4 * time.Second

func (t *toast) pass(text string, now time.Time) { *t = toast{text: text, until: now.Add(toastFor)} }
func (t *toast) stay(text string)                { *t = toast{text: text, bad: true} }

func (t *toast) keyPressed() {
	if t.bad {
		*t = toast{}
	}
}

func (t *toast) tick(now time.Time) {
	if !t.until.IsZero() && now.After(t.until) {
		*t = toast{}
	}
}

func (t *toast) view(th *theme) string {
	switch {
	case t.text == "":
		return ""
	case t.bad:
		return " " + th.bad.Render(th.mark("✗ ", "X ")+clean(t.text))
	}
	return " " + th.ok.Render(th.mark("✓ ", "+ ")+clean(t.text))
}
