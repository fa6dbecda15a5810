package console

import (
	"fmt"
	"unicode"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// logBook is screen 7: every line, newest first, crossed out or not.
type logBook struct {
	t     *theme
	x     *advise.Snapshot
	l     layout
	lines []bath.Entry // oldest first
	at    int          // from the newest
}

func (s *logBook) setTheme(t *theme) { s.t = t }
func (s *logBook) setSize(l layout)  { s.l = l }

func (s *logBook) setSnapshot(x *advise.Snapshot) { s.x = x }

// setLines takes the newest lines; the marked line stays marked.
func (s *logBook) setLines(lines []bath.Entry) {
	if grown := len(lines) - len(s.lines); s.at > 0 && grown > 0 {
		s.at += grown
	}
	s.lines = lines
	s.at = max(0, min(s.at, len(lines)-1))
}

func (s *logBook) bindings() []key.Binding {
	return []key.Binding{keys.up, keys.down, keys.strike}
}

func (s *logBook) line(i int) bath.Entry { return s.lines[len(s.lines)-1-i] }

func (s *logBook) key(msg tea.KeyPressMsg) action {
	if len(s.lines) == 0 {
		return nil
	}
	if at, ok := moved(msg, s.at, len(s.lines), s.listH()-1); ok {
		s.at = at
		return nil
	}
	if key.Matches(msg, keys.strike) {
		return openStrike{s.line(s.at)}
	}
	return nil
}

// detailH is the height of the foot that shows the marked line whole.
const detailH = 4

func (s *logBook) listH() int { return max(1, s.l.body.Dy()-1-detailH) }

func (s *logBook) view() []string {
	w := s.l.w
	out := []string{s.t.title("Log book", w, true)}
	if s.x == nil || len(s.lines) == 0 {
		return rows(append(out, "  Nothing is written yet."), w, s.l.body.Dy())
	}
	h := s.listH()
	first := firstShown(s.at, len(s.lines), h)
	for i := first; i < len(s.lines) && len(out) < h+1; i++ {
		out = append(out, s.row(s.line(i), i == s.at, w))
	}
	out = rows(out, w, h+1)
	return rows(append(out, s.detail(s.line(s.at), w)...), w, s.l.body.Dy())
}

func (s *logBook) row(e bath.Entry, marked bool, w int) string {
	mark, what := "  ", lineSay(e, s.x)
	by, struck := s.x.State.Struck[e.Seq]
	if struck {
		what = fmt.Sprintf("%s crossed out by %d: ", s.t.mark("✗", "X"), by) + what
	}
	text := pad(fmt.Sprintf("%4d  ", e.Seq)+what, w-3)
	switch {
	case marked:
		mark, text = s.t.mark("▸ ", "> "), s.t.accent.Render(text)
	case struck:
		text = s.t.muted.Render(text)
	}
	return " " + mark + text
}

// detail is the marked line whole, and when it was written.
func (s *logBook) detail(e bath.Entry, w int) []string {
	out := []string{s.t.title(fmt.Sprintf("Line %d · %s", e.Seq, e.Kind()), w, false)}
	for _, l := range wrap(clean(e.Say(s.x.Sys)), w-4) {
		out = append(out, "  "+l)
	}
	out = out[:min(len(out), detailH-1)]
	loc := s.x.Now.Location()
	return append(out, s.t.muted.Render(fmt.Sprintf("  %s happened %s, written %s", clean(e.By), e.At.In(loc).Format("Mon 2 Jan 2006 15:04"), e.Logged.In(loc).Format("Mon 2 Jan 15:04:05"))))
}

// lineSay is a line of the log book: when, what, who.
func lineSay(e bath.Entry, x *advise.Snapshot) string {
	when := e.At.In(x.Now.Location()).Format("2 Jan 15:04")
	return fmt.Sprintf("%-12s %s · %s", when, clean(e.Say(x.Sys)), clean(e.By))
}

func capital(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
