package guide

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"bathside/internal/catalog"
	"bathside/internal/tomlkeys"
)

// reader collects the mistakes of one file.
type reader struct {
	file     string
	lines    lines
	form     Form
	mistakes catalog.Mistakes
}

// wrong notes a mistake. What a file holds does not move the reader's cursor.
func (r *reader) wrong(line int, format string, args ...any) {
	say := strings.Map(func(c rune) rune {
		if unicode.IsPrint(c) {
			return c
		}
		return ' '
	}, fmt.Sprintf(format, args...))
	r.mistakes = append(r.mistakes, &catalog.MistakeError{File: r.file, Line: line, Say: say})
	slices.SortStableFunc(r.mistakes, func(a, b *catalog.MistakeError) int { return a.Line - b.Line })
}

// words checks a field that is shown: there where it must be, and not longer
// than its place on the screen.
func (r *reader) words(at where, field, text string, most int, must bool) {
	n := len([]rune(text))
	switch {
	case must && strings.TrimSpace(text) == "":
		r.wrong(at.line(field), "%q is missing or empty: write words in quotes", field)
	case n > most:
		r.wrong(at.line(field), "%q has %d letters: at most %d fit on the screen; say it shorter", field, n, most)
	case strings.ContainsFunc(text, func(c rune) bool { return !unicode.IsPrint(c) }):
		r.wrong(at.line(field), "%q holds signs that cannot be shown: write it in one line without them", field)
	}
}

// where is the place of a table and of its fields in the file, by line.
type where struct {
	head   int
	fields map[string]int
}

func (w where) line(field string) int {
	if n, ok := w.fields[field]; ok {
		return n
	}
	return w.head
}

// lines are the places of the guide's own fields and of its steps.
type lines struct {
	top   where
	steps []where
}

func (l lines) step(i int) where {
	if i < len(l.steps) {
		return l.steps[i]
	}
	return l.top // written as step = [...]
}

func linesOf(text []byte) lines {
	all := lines{top: where{1, map[string]int{}}}
	open := &all.top
	for key := range tomlkeys.In(text) {
		switch key.Kind {
		case tomlkeys.Field:
			if first, _, _ := strings.Cut(key.Path, "."); open.fields[first] == 0 {
				open.fields[first] = key.Line
			}
		case tomlkeys.ListTable:
			all.steps = append(all.steps, where{key.Line, map[string]int{}})
			open = &all.steps[len(all.steps)-1]
		case tomlkeys.Table: // [step.preset] is a field of the last [[step]]
			_, field, _ := strings.Cut(key.Path, ".")
			open.fields[field] = key.Line
		}
	}
	return all
}
