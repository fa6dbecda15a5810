package cli

import (
	"io"
	"runtime"
	"strings"

	"bathside/internal/chart"
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

// lettersFor is what text may be written in: a locale that is named and is not
// one of UTF-8 gets ASCII, which is part of all of them.
func lettersFor(locale string) plain.Letters {
	if locale != "" && !strings.Contains(strings.ToUpper(strings.ReplaceAll(locale, "-", "")), "UTF8") {
		return plain.ASCII
	}
	return nil
}

// lookFor chooses what the console is drawn with. The font of a bare Linux
// console is sure of no more than code page 437; braille is for everybody else
// (common practice, no source).
func lookFor(term, locale string) (chart.Glyphs, plain.Letters) {
	switch {
	case lettersFor(locale) != nil:
		return chart.ASCII, plain.ASCII
	case term == "linux":
		return chart.Block, plain.PC
	case runtime.GOOS == "windows":
		return chart.Block, nil
	}
	return chart.Braille, nil
}

func localeOf(getenv func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := getenv(name); v != "" {
			return v
		}
	}
	return ""
}

// dumb reports whether the terminal says that it is one, or says nothing: no
// screen can be drawn on it.
func (a *app) dumb() bool {
	term := a.Getenv("TERM")
	return term == "dumb" || term == "" && runtime.GOOS != "windows"
}
