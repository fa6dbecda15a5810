package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// MistakeError is one mistake in a catalog file, for whoever edits the file.
type MistakeError struct {
	File string
	Line int
	Say  string // what is wrong and what is allowed; nothing that moves a cursor
}

func (e *MistakeError) Error() string { return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.Say) }

// Mistakes are all that were found, at least one, by file and line.
type Mistakes []*MistakeError

// Error has one line for each.
func (m Mistakes) Error() string {
	lines := make([]string, len(m))
	for i, one := range m {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets [errors.As] find the first of them.
func (m Mistakes) Unwrap() []error {
	errs := make([]error, len(m))
	for i, one := range m {
		errs[i] = one
	}
	return errs
}

// mistake notes one.
func (d *document) mistake(line int, format string, args ...any) {
	d.mistakes = append(d.mistakes, &MistakeError{d.file, line, printable(fmt.Sprintf(format, args...))})
}

// printable keeps what a file holds from moving the reader's cursor.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, s)
}

// mistakesOf are those of all documents, nil when there are none.
func mistakesOf(documents []*document) error {
	var all Mistakes
	for _, d := range documents {
		slices.SortStableFunc(d.mistakes, func(a, b *MistakeError) int { return a.Line - b.Line })
		all = append(all, d.mistakes...)
	}
	if len(all) == 0 {
		return nil
	}
	return all
}
