package console

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// pad makes s exactly w cells wide: cut with an ellipsis, or filled with
// spaces.
func pad(s string, w int) string {
	if w <= 0 {
		return ""
	}
	n := ansi.StringWidth(s)
	if n > w {
		s = ansi.Truncate(s, w, "…")
		n = ansi.StringWidth(s)
	}
	return s + strings.Repeat(" ", w-n)
}

// spread sets left and right at the two ends of w cells; left gives way, and
// where it is cut stays apart from right.
func spread(left, right string, w int) string {
	r := ansi.StringWidth(right)
	if r >= w {
		return pad(right, w)
	}
	room := w - r
	if ansi.StringWidth(left) > room && !strings.HasPrefix(ansi.Strip(right), " ") {
		left = pad(left, room-1)
	}
	return pad(left, room) + right
}

// fit gives the first of the candidates that is at most w cells wide, and the
// last of them, cut, where none is.
func fit(w int, candidates ...string) string {
	for _, c := range candidates {
		if ansi.StringWidth(c) <= w {
			return c
		}
	}
	return ansi.Truncate(candidates[len(candidates)-1], max(w, 0), "…")
}

// clauses cuts s to w cells after a whole clause where one fits, else within a
// word.
func clauses(s string, w int) string {
	if ansi.StringWidth(s) <= w {
		return s
	}
	const end = "; "
	for i := strings.LastIndex(s, end); i > 0; i = strings.LastIndex(s[:i], end) {
		if c := s[:i] + end + "…"; ansi.StringWidth(c) <= w {
			return c
		}
	}
	return ansi.Truncate(s, max(w, 0), "…")
}

// rows makes lines into exactly h rows of w cells.
func rows(lines []string, w, h int) []string {
	out := make([]string, max(h, 0))
	for i := range out {
		if i < len(lines) {
			out[i] = pad(lines[i], w)
		} else {
			out[i] = strings.Repeat(" ", max(w, 0))
		}
	}
	return out
}

// beside sets blocks of rows next to each other with a gap between.
func beside(gap int, blocks ...[]string) []string {
	var out []string
	for i := range blocks[0] {
		var b strings.Builder
		for j, block := range blocks {
			if j > 0 {
				b.WriteString(strings.Repeat(" ", gap))
			}
			b.WriteString(block[i])
		}
		out = append(out, b.String())
	}
	return out
}

// wrap breaks s into lines of at most w cells at spaces.
func wrap(s string, w int) []string {
	if w <= 0 {
		return nil
	}
	return strings.Split(ansi.Wrap(s, w, ""), "\n")
}

// title is a title row: a rule with a name in it. Focus thickens its first
// cells and marks the name, and changes nothing else.
func (t *theme) title(name string, w int, focus bool) string {
	if w < 4 {
		return pad(name, w)
	}
	name = ansi.Truncate(name, w-4, "…")
	tail := strings.Repeat(t.rule, max(0, w-4-ansi.StringWidth(name)))
	if focus {
		return t.accent.Render(t.ruleFocus+t.mark("▸", ">")+name) + " " + t.muted.Render(tail+t.rule)
	}
	return t.muted.Render(t.rule) + " " + t.bold.Render(name) + " " + t.muted.Render(tail+t.rule)
}
