package report

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/plain"
)

// width is the widest line: what a printer and a small terminal both hold.
const width = 78

// text gathers lines, each made plain and wrapped.
type text struct {
	strings.Builder
	paper   bool // in letters that any printer has
	columns int  // the widest line; 0 is a page's width
}

// say adds a paragraph.
func (t *text) say(s string) { t.hang("", 0, s) }

// hang adds a paragraph that stands right of its label, or below one that is
// too long for that.
func (t *text) hang(label string, indent int, s string) {
	if t.paper {
		s = ascii(s)
	}
	label = ansi.Truncate(plain.Line(label), t.room(), "")
	if label != "" && ansi.StringWidth(label) >= indent {
		t.line(label)
		label = ""
	}
	for _, line := range wrap(s, t.room()-indent) {
		t.line(pad(label, indent) + line)
		label = ""
	}
}

// room is the widest line: more than any label is indented by.
func (t *text) room() int {
	if t.columns <= 0 {
		return width
	}
	return max(t.columns, 2*factIndent)
}

func (t *text) blank() { t.line("") }

func (t *text) line(s string) {
	t.WriteString(strings.TrimRight(s, " "))
	t.WriteByte('\n')
}

// lines are the lines so far.
func (t *text) lines() []string {
	return strings.Split(strings.TrimSuffix(t.String(), "\n"), "\n")
}

// wrap breaks s into lines of at most so many columns, at spaces where it can.
// (ansi.Wrap goes a column over where a hyphen ends the line.)
func wrap(s string, columns int) []string {
	var lines []string
	var line string
	for word := range strings.FieldsSeq(plain.Line(s)) {
		switch {
		case line == "":
			line = word
		case ansi.StringWidth(line)+1+ansi.StringWidth(word) <= columns:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
		for ansi.StringWidth(line) > columns { // a word longer than a line
			head := ansi.Truncate(line, columns, "")
			lines, line = append(lines, head), line[len(head):]
		}
	}
	return append(lines, line)
}

// pad fills s with spaces up to so many columns.
func pad(s string, columns int) string {
	return s + strings.Repeat(" ", max(columns-ansi.StringWidth(s), 0))
}

// ascii writes our own signs so that any printer has them; names keep their
// letters.
var ascii = strings.NewReplacer("°", "", "×", "x", "·", "-", "…", "...", "±", "+/-", "–", "-", "—", "-").Replace
