package catalog

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"bathside/internal/tomlkeys"
)

// A document is one TOML file: its tables, the lines on which they stand, and
// the mistakes found so far.
type document struct {
	file     string
	own      bool // the station's, not shipped
	tables   map[string]any
	lines    map[string][]tableLines // by table name, in the order of the file
	mistakes []*MistakeError
}

// tableLines says where a table and its fields stand.
type tableLines struct {
	head   int
	fields map[string]int
}

// readDocument parses a file of fsys. What is not TOML at all is a [Mistakes].
func readDocument(fsys fs.FS, file string) (*document, error) {
	text, err := fs.ReadFile(fsys, file)
	if err != nil {
		return nil, fmt.Errorf("read catalog: %w", err)
	}
	return parseDocument(file, text)
}

// parseDocument parses text, which editors may have begun with a byte order
// mark.
func parseDocument(file string, text []byte) (*document, error) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	d := &document{file: file, lines: lineNumbers(text)}
	if err := toml.Unmarshal(text, &d.tables); err != nil {
		return nil, fmt.Errorf("read catalog: %w", d.syntaxError(err))
	}
	return d, nil
}

// syntaxError puts the parser's complaint in our form.
func (d *document) syntaxError(err error) error {
	var bad *toml.DecodeError
	if !errors.As(err, &bad) {
		return fmt.Errorf("%s: %w", d.file, err)
	}
	line, _ := bad.Position()
	say := "this is not TOML: " + strings.TrimPrefix(bad.Error(), "toml: ")
	return Mistakes{{d.file, line, printable(say)}}
}

// lineNumbers finds where tables and fields stand; the file's own fields stand
// in a table without a name.
func lineNumbers(text []byte) map[string][]tableLines {
	name := ""
	lines := map[string][]tableLines{name: {{head: 1, fields: map[string]int{}}}}
	mark := func(name, field string, line int) {
		if open := lines[name]; len(open) > 0 {
			open[len(open)-1].fields[field] = line
		}
	}
	for key := range tomlkeys.In(text) {
		first, rest, nested := strings.Cut(key.Path, ".")
		if key.Kind == tomlkeys.Field {
			mark(name, first, key.Line)
			continue
		}
		if nested {
			mark(first, rest, key.Line) // [item.size] is a field of the last [[item]]
		}
		name = key.Path
		lines[name] = append(lines[name], tableLines{key.Line, map[string]int{}})
	}
	return lines
}

// line is where table i of that name stands, or what else has that name.
func (d *document) line(name string, i int) int {
	if i < len(d.lines[name]) {
		return d.lines[name][i].head
	}
	return max(1, d.lines[""][0].fields[name])
}

// refuseOtherTables notes every table whose name is not known, which is most
// often a slip of the pen: [[items]] for [[item]].
func (d *document) refuseOtherTables(known ...string) {
	for name := range d.tables {
		if !slices.Contains(known, name) {
			d.mistake(d.line(name, 0), "%q is not known here; write [[%s]]", name, strings.Join(known, "]] or [["))
		}
	}
}

// needTables are the tables of that name; a file without any is a mistake.
func (d *document) needTables(name string) []*table {
	if list, _ := d.tables[name].([]any); len(list) == 0 {
		d.mistake(d.line(name, 0), "there is no [[%s]]: write at least one", name)
		return nil
	}
	return d.tablesNamed(name)
}

// tablesNamed are the tables of that name, none where the file has none.
func (d *document) tablesNamed(name string) []*table {
	raw, there := d.tables[name]
	if !there {
		return nil
	}
	list, _ := raw.([]any)
	all := make([]*table, 0, len(list))
	for i, one := range list {
		if fields, ok := one.(map[string]any); ok && i < len(d.lines[name]) {
			all = append(all, &table{document: d, kind: name, fields: fields, at: d.lines[name][i]})
		}
	}
	if len(all) == 0 || len(all) < len(list) {
		d.mistake(d.line(name, 0), "write each %s as a table of its own, [[%s]]", name, name)
		return nil
	}
	return all
}
