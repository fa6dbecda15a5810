package console

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/plain"
)

// logBook is screen 7: every line, newest first, crossed out or not. It holds
// the newest lines, and gets older ones as somebody comes to them. The handover
// may stand in their place.
type logBook struct {
	t     *theme
	x     *advise.Snapshot
	l     layout
	lines []bath.Entry // oldest first
	at    int          // from the newest

	words string       // what was looked for; "" shows every line
	found []bath.Entry // what was found, oldest first
	back  int          // where the mark stood before

	handover handoverView
}

func (s *logBook) setTheme(t *theme) { s.t = t }

func (s *logBook) setSize(l layout) {
	s.l = l
	s.tell()
}

func (s *logBook) setSnapshot(x *advise.Snapshot) {
	s.x = x
	s.tell()
}

func (s *logBook) tell() { s.handover.tell(s.x, s.lines, s.l.w) }

// setLines takes the newest lines; older ones that are held stay, and the
// marked line stays marked.
func (s *logBook) setLines(lines []bath.Entry) {
	if len(lines) > 0 && len(s.lines) > 0 {
		if grown := int(lines[len(lines)-1].Seq) - int(s.lines[len(s.lines)-1].Seq); s.at > 0 && grown > 0 && s.words == "" {
			s.at += grown
		}
		older := slices.IndexFunc(s.lines, func(e bath.Entry) bool { return e.Seq >= lines[0].Seq })
		if older > 0 {
			lines = append(slices.Clone(s.lines[:older]), lines...)
		}
	}
	s.lines = lines
	s.at = max(0, min(s.at, len(s.shown())-1))
}

func (s *logBook) bindings() []key.Binding {
	switch {
	case s.handover.shown:
		return s.handover.bindings()
	case s.words != "":
		return []key.Binding{bind("esc", "every line again", "esc"), keys.up, keys.down, keys.strike, keys.find}
	case s.handover.write == nil:
		return []key.Binding{keys.up, keys.down, keys.strike, keys.find}
	}
	return []key.Binding{keys.up, keys.down, logHandover, keys.strike, keys.find}
}

// shown is the lines that are listed, oldest first.
func (s *logBook) shown() []bath.Entry {
	if s.words != "" {
		return s.found
	}
	return s.lines
}

func (s *logBook) line(i int) bath.Entry {
	all := s.shown()
	return all[len(all)-1-i]
}

func (s *logBook) key(msg tea.KeyPressMsg) action {
	n := len(s.shown())
	switch {
	case key.Matches(msg, logHandover) && s.handover.write != nil:
		s.handover.shown, s.handover.from = !s.handover.shown, 0
		s.tell()
		return nil
	case s.handover.shown:
		return s.handover.key(msg, s.l.body.Dy()-1)
	case s.words != "" && key.Matches(msg, keys.esc):
		s.words, s.found, s.at = "", nil, s.back
		return nil
	case n == 0:
		return nil
	}
	if at, ok := moved(msg, s.at, n, s.listH()-1); ok {
		s.at = at
		return s.moreBelow()
	}
	if key.Matches(msg, keys.strike) {
		return openStrike{s.line(s.at)}
	}
	return nil
}

// moreBelow asks for older lines when the mark comes to the oldest that is
// held.
func (s *logBook) moreBelow() action {
	if s.words == "" && s.at == len(s.lines)-1 && s.lines[0].Seq > 1 {
		return loadOlder{}
	}
	return nil
}

func (s *logBook) list() list {
	if s.x == nil || s.handover.shown {
		return list{}
	}
	all := s.shown()
	l := list{at: s.at, mark: func(i int) { s.at = i }, y: 1, from: firstShown(s.at, len(all), s.listH())}
	for i := range all {
		l.rows = append(l.rows, findable(s.line(i), s.x))
	}
	return l
}

// copied is the marked line as it reads.
func (s *logBook) copied() string {
	switch {
	case s.handover.shown:
		return strings.Join(s.handover.text, "\n")
	case s.x == nil || len(s.shown()) == 0:
		return ""
	}
	return lineSay(s.line(s.at), s.x)
}

// findable is what a line is found by: how it reads, and what it is called.
func findable(e bath.Entry, x *advise.Snapshot) string {
	title := ""
	if spec, ok := bath.SpecOf(e.Kind()); ok {
		title = spec.Title
	}
	return fmt.Sprintf("%d  %s  %s, %s", e.Seq, lineSay(e, x), e.Kind(), title)
}

// seek looks through the whole log book.
func (s *logBook) seek(words string) action { return searchBook{words} }

// detailH is the height of the foot that shows the marked line whole.
const detailH = 4

func (s *logBook) listH() int { return max(1, s.l.body.Dy()-1-detailH) }

func (s *logBook) view() []string {
	w := s.l.w
	if s.handover.shown {
		return s.handover.view(s.t, w, s.l.body.Dy())
	}
	out := []string{s.t.title(s.title(), w, true)}
	n := len(s.shown())
	if s.x == nil || n == 0 {
		return rows(append(out, "  "+s.none()), w, s.l.body.Dy())
	}
	h := s.listH()
	first := firstShown(s.at, n, h)
	for i := first; i < n && len(out) < h+1; i++ {
		out = append(out, s.row(s.line(i), i == s.at, w))
	}
	out = rows(out, w, h+1)
	return rows(append(out, s.detail(s.line(s.at), w)...), w, s.l.body.Dy())
}

func (s *logBook) title() string {
	if s.words == "" {
		return "Log book"
	}
	return fmt.Sprintf("Log book: %s with %q, the newest first · esc shows all", lineCount(len(s.found)), plain.Line(s.words))
}

func lineCount(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

func (s *logBook) none() string {
	if s.words != "" {
		return "No line of the log book has that. esc shows them all."
	}
	return "Nothing is written yet."
}

func (s *logBook) row(e bath.Entry, marked bool, w int) string {
	mark, what := "  ", lineSay(e, s.x)
	by, struck := s.x.State.Struck[e.Seq]
	if struck {
		what = fmt.Sprintf("%s crossed out by %d: ", s.t.mark("✗", "X"), by) + what
	}
	number, what := fmt.Sprintf("%4d", e.Seq), pad("  "+what, w-7)
	if struck {
		what = s.t.muted.Render(what)
	}
	if marked { // the number only: moving the mark then costs few bytes
		mark, number = s.t.mark("▸ ", "> "), s.t.accent.Render(number)
	}
	return " " + mark + number + what
}

// detail is the marked line whole, and when it was written.
func (s *logBook) detail(e bath.Entry, w int) []string {
	out := []string{s.t.title(fmt.Sprintf("Line %d · %s", e.Seq, e.Kind()), w, false)}
	for _, l := range wrap(plain.Line(e.Say(s.x.Sys)), w-4) {
		out = append(out, "  "+l)
	}
	out = out[:min(len(out), detailH-1)]
	at, logged, times := s.x.Local(e.At), s.x.Local(e.Logged), s.x.Times
	happened := fmt.Sprintf("  %s · happened %s", plain.Line(e.By), at.Format("Mon ")+times.FullClock(at))
	return append(out, s.t.muted.Render(fit(w,
		happened+", written "+logged.Format("Mon ")+times.Date(logged)+" "+times.Seconds(logged),
		happened+", written "+times.DateClock(logged),
		happened)))
}

// lineSay is a line of the log book: when, what, who.
func lineSay(e bath.Entry, x *advise.Snapshot) string {
	when := pad(x.Times.DateClock(x.Local(e.At)), x.Times.DateClockW())
	return fmt.Sprintf("%s %s · %s", when, plain.Line(e.Say(x.Sys)), plain.Line(e.By))
}

func capital(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
