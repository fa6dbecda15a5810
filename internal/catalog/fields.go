package catalog

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bathside/internal/plain"
	"bathside/internal/units"
)

// has says whether an optional field is there.
func (t *table) has(name string) bool {
	_, there := t.fields[name]
	if !there {
		t.read = append(t.read, name) // so that it is listed as a field
	}
	return there
}

// text reads words in quotes that are not empty.
func (t *table) text(name string) string {
	s, ok := field[string](t, name, "words in quotes")
	if ok {
		t.shown(name, s)
	}
	return s
}

// longest is how many letters a text of an item may have: a screen shows no
// more of it.
const longest = 500

// shown refuses a text that is nothing, too much, or cannot be shown.
func (t *table) shown(name, s string) {
	switch n := len([]rune(s)); {
	case strings.TrimSpace(s) == "":
		t.wrong(name, "%q is empty; write words in quotes", name)
	case n > longest:
		t.wrong(name, "%q has %d letters; write at most %d", name, n, longest)
	case plain.Line(s) != s:
		t.wrong(name, "%q holds signs that cannot be shown; write it in one line without them", name)
	}
}

// id reads the field "id", which is typed in commands and so kept plain.
func (t *table) id() string {
	s := t.text("id")
	odd := func(r rune) bool { return r != '-' && (r < 'a' || r > 'z') && (r < '0' || r > '9') }
	if strings.ContainsFunc(s, odd) {
		t.wrong("id", "%q is no id; write small letters, digits and hyphens", s)
	}
	return s
}

// word reads one of the allowed words.
func (t *table) word(name string, allowed ...string) string {
	list := strings.Join(allowed, ", ")
	s, ok := field[string](t, name, "one of "+list)
	if ok && !slices.Contains(allowed, s) {
		t.wrong(name, "%q is %q; write one of %s", name, s, list)
	}
	return s
}

// flag reads true or false.
func (t *table) flag(name string) bool {
	b, _ := field[bool](t, name, "true or false")
	return b
}

// number reads a number above zero; whole and broken ones are the same here.
func (t *table) number(name string) float64 {
	raw, ok := field[any](t, name, "a number above 0")
	if !ok {
		return 0
	}
	x, ok := float(raw)
	if !ok || !(x > 0 && x <= 1000) {
		t.wrong(name, "%q is %v; write a number above 0, up to 1000", name, raw)
		return 0
	}
	return x
}

// float returns a TOML number as a float64.
func float(raw any) (float64, bool) {
	switch x := raw.(type) {
	case int64:
		return float64(x), true
	case float64:
		return x, true
	}
	return 0, false
}

// span reads two numbers, the lower first.
func (t *table) span(name string) (low, high float64) {
	list, ok := field[[]any](t, name, "two numbers, [9.0, 10.5]")
	if !ok {
		return 0, 0
	}
	if len(list) == 2 {
		var okLow, okHigh bool
		low, okLow = float(list[0])
		high, okHigh = float(list[1])
		if okLow && okHigh && low < high {
			return low, high
		}
	}
	t.wrong(name, "%q is %v; write two numbers, the lower first", name, list)
	return 0, 0
}

// texts reads a list of words in quotes; a missing list is empty.
func (t *table) texts(name string) []string {
	if !t.has(name) {
		return nil
	}
	list, ok := field[[]any](t, name, "a list of words in quotes")
	if !ok {
		return nil
	}
	words := make([]string, 0, len(list))
	for _, raw := range list {
		s, ok := raw.(string)
		if !ok || strings.TrimSpace(s) == "" {
			t.wrong(name, "%q holds %v; write words in quotes", name, raw)
			continue
		}
		t.shown(name, s)
		words = append(words, s)
	}
	return words
}

// quantity reads a number with its unit, in quotes, above zero.
func quantity[Q units.Quantity](t *table, name, example string) Q {
	s, ok := field[string](t, name, fmt.Sprintf("a number with its unit in quotes, such as %q", example))
	if !ok {
		return 0
	}
	return parse[Q](t, name, s)
}

// parse reads one quantity of a field.
func parse[Q units.Quantity](t *table, name, s string) Q {
	q, err := units.Parse[Q](s)
	if err == nil && q <= 0 {
		err = errors.New("it must be above 0")
	}
	if err != nil {
		t.wrong(name, "%q: %v", name, err)
		return 0
	}
	return q
}

// subtables reads a list of inline tables.
func subtables[T any](t *table, name, example string, read func(*table) T) []T {
	list, ok := field[[]any](t, name, "a list such as "+example)
	if !ok {
		return nil
	}
	all := make([]T, 0, len(list))
	for i, raw := range list {
		fields, ok := raw.(map[string]any)
		if !ok {
			t.wrong(name, "%q holds %v; write a list such as %s", name, raw, example)
			continue
		}
		sub := &table{document: t.document, kind: fmt.Sprintf("%s: %s %d", t.called(), name, i+1), fields: fields}
		sub.at.head = t.lineOf(name)
		all = append(all, read(sub))
		sub.refuseOtherFields()
	}
	return all
}
