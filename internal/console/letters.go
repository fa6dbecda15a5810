package console

import (
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/plain"
)

// The last look at what leaves for the terminal stands here: whatever a screen
// drew, no row holds a control character but the colours of ours, none asks for
// a letter that the terminal lacks, and each keeps its width.

// letters is the row in the letters of the look, exactly w cells wide. A
// stand-in may be longer or shorter than its sign; the next gap of the row gives
// or takes what that moved, so that columns stay under each other.
func (t *theme) letters(row string, w int) string {
	if t.has == nil && sound(row) {
		return plain.Apart(row)
	}
	s := ansi.Truncate(t.respell(row), w, "")
	return plain.Apart(s + strings.Repeat(" ", max(0, w-ansi.StringWidth(s))))
}

// column is where the cursor stands in letters of the look, that stood at x in
// the row as it was drawn.
func (t *theme) column(row string, x int) int {
	if t.has == nil {
		return x
	}
	return ansi.StringWidth(t.respell(ansi.Truncate(row, x, "")+"|")) - 1
}

// respell is letters without a width to keep. What is cut off at an ellipsis may
// be cut off two letters earlier, where the ellipsis is dots.
func (t *theme) respell(row string) string {
	var b []byte
	over, gap := 0, false // cells that the row is ahead of where it stood; in a gap
	loose := 0            // letters since the last style
	var state byte
	for len(row) > 0 {
		seq, width, n, next := ansi.DecodeSequence(row, state, nil)
		row, state = row[n:], next
		switch {
		case width == 0 && isStyle(seq):
			b = append(b, seq...)
			loose = 0
		case seq == " " && gap && over > 0:
			over--
		case seq == " ":
			if gap && over < 0 {
				b = append(b, strings.Repeat(" ", -over)...)
				over = 0
			}
			b = append(b, ' ')
			gap = true
			loose++
		default:
			s := t.spell(seq)
			over += ansi.StringWidth(s) - width
			for seq == "…" && over > 0 && loose > 0 {
				_, n := utf8.DecodeLastRune(b)
				over -= ansi.StringWidth(string(b[len(b)-n:]))
				b = b[:len(b)-n]
				loose--
			}
			b = append(b, s...)
			gap = false
			loose++
		}
	}
	return string(b)
}

// spell is a character, with its marks, in the letters of the look.
func (t *theme) spell(s string) string {
	s = plain.Line(s)
	if t.has == nil {
		return s
	}
	return plain.In(s, t.has)
}

// sound reports whether a row holds nothing that could harm a terminal: the
// styles of ours, and text that is its own plain line.
func sound(row string) bool {
	for {
		before, after, more := strings.Cut(row, "\x1b[")
		if plain.Line(before) != before {
			return false
		}
		if !more {
			return true
		}
		_, rest, ok := strings.Cut(after, "m")
		if !ok || !isStyle("\x1b["+after[:len(after)-len(rest)]) {
			return false
		}
		row = rest
	}
}

// isStyle reports whether seq sets the look of what follows, and does nothing
// else.
func isStyle(seq string) bool {
	body, ok := strings.CutPrefix(seq, "\x1b[")
	return ok && strings.HasSuffix(body, "m") && strings.Trim(body[:len(body)-1], "0123456789;:") == ""
}
