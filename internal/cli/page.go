package cli

import (
	"io"
	"strings"

	"bathside/internal/plain"
)

// page writes text for people: without anything that could harm a terminal, and
// in letters that it has. It is handed whole words, as fmt and the reports do.
// JSON, exports and CSV do not pass through it, since programs read them.
type page struct {
	w   io.Writer
	has plain.Letters // nil: everything
}

// Write keeps the ends of lines and pages, and tabs.
func (p page) Write(b []byte) (int, error) {
	var out strings.Builder
	for text := string(b); text != ""; {
		end := strings.IndexAny(text, "\n\t\f")
		if end < 0 {
			end = len(text)
		}
		s := plain.Line(text[:end])
		if p.has != nil {
			s = plain.In(s, p.has)
		}
		out.WriteString(plain.Apart(s))
		if end < len(text) {
			out.WriteByte(text[end])
			end++
		}
		text = text[end:]
	}
	if _, err := io.WriteString(p.w, out.String()); err != nil {
		return 0, err
	}
	return len(b), nil
}

// text is where what people read is written, and aside is where they are told
// what went wrong.
func (a *app) text() io.Writer  { return page{a.Out, lettersFor(localeOf(a.Getenv))} }
func (a *app) aside() io.Writer { return page{a.Err, lettersFor(localeOf(a.Getenv))} }
