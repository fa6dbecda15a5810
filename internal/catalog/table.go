package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A table is one [[item]] or the like, read field by field. Each reader notes
// what is wrong with its field and goes on with the zero value, so that one
// look at the file shows all that must be mended.
type table struct {
	*document
	kind   string // "item"
	fields map[string]any
	at     tableLines
	read   []string // fields asked for so far
}

// wrong notes a mistake at a field.
func (t *table) wrong(field, format string, args ...any) {
	t.mistake(t.lineOf(field), "%s: %s", t.called(), fmt.Sprintf(format, args...))
}

// lineOf is where a field stands, or its table where it has none of its own.
func (t *table) lineOf(field string) int {
	if line, ok := t.at.fields[field]; ok {
		return line
	}
	return t.at.head
}

// called names the table in a sentence: item "mask".
func (t *table) called() string {
	for _, field := range []string{"id", "name"} {
		if s, ok := t.fields[field].(string); ok {
			return fmt.Sprintf("%s %q", t.kind, cut(s))
		}
	}
	return t.kind
}

// refuseOtherFields notes the fields that no reader asked for.
func (t *table) refuseOtherFields() {
	for _, field := range slices.Sorted(maps.Keys(t.fields)) {
		if !slices.Contains(t.read, field) {
			t.wrong(field, "%q is not a field of it; fields are %s", field, strings.Join(t.read, ", "))
		}
	}
}

// field returns the value of a field as a T. want says in words what a T is.
func field[T any](t *table, name, want string) (value T, ok bool) {
	t.read = append(t.read, name)
	raw, there := t.fields[name]
	if !there {
		t.wrong(name, "%q is missing; write %s", name, want)
		return value, false
	}
	if value, ok = raw.(T); !ok {
		t.wrong(name, "%q is of the wrong kind; write %s", name, want)
	}
	return value, ok
}
