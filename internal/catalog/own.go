package catalog

import (
	"errors"
	"maps"
	"slices"
	"strings"
)

// Own is one TOML file of the station's own. It has [[item]] and [[detergent]]
// tables as the shipped files do. A table whose id is known changes only the
// fields that it has; a new id must have all of them. What ships as never in
// the bath stays so: a file can keep more out, not let more in.
type Own struct {
	File string // as its mistakes name it
	Text []byte
}

// readOwn parses the files. Those that are not TOML at all are the [Mistakes].
func readOwn(own []Own) ([]*document, error) {
	var (
		all []*document
		bad Mistakes
	)
	for _, o := range own {
		d, err := parseDocument(o.File, o.Text)
		if m := new(MistakeError); errors.As(err, &m) {
			bad = append(bad, m)
			continue
		}
		if err != nil {
			return nil, err
		}
		d.own = true
		d.refuseOtherTables("item", "detergent")
		all = append(all, d)
	}
	if len(bad) > 0 {
		return nil, bad
	}
	return all, nil
}

// layOver lays the tables of that name in own over the shipped ones.
func layOver(shipped []*table, own []*document, name string) []*table {
	tables := shipped
	for _, d := range own {
		for _, t := range d.tablesNamed(name) {
			i := slices.IndexFunc(tables, t.sameID)
			switch {
			case i < 0 && t.fields["name"] == nil:
				t.refuseStray(shipped)
			case i < 0:
				tables = append(tables, t)
			case tables[i].own:
				t.wrong("id", "it stands at %s:%d too; write one table for it", tables[i].file, tables[i].at.head)
			default:
				tables[i] = t.over(tables[i])
			}
		}
	}
	return tables
}

// sameID says whether two tables are about one thing.
func (t *table) sameID(other *table) bool {
	id, ok := t.fields["id"].(string)
	return ok && id == other.fields["id"]
}

// refuseStray notes that t changes nothing that ships and is not whole either.
// One sentence for all that it lacks: its id is most likely a slip of the pen.
func (t *table) refuseStray(shipped []*table) {
	id, ok := t.fields["id"].(string)
	if !ok {
		t.wrong("id", `write in "id", in quotes, which %s it changes, or a new one`, t.kind)
		return
	}
	ids := map[string]string{}
	for _, s := range shipped {
		if known, ok := s.fields["id"].(string); ok {
			ids[fold(known)] = known
		}
	}
	hint := ""
	if like := nearest(id, ids); len(like) > 0 {
		hint = "; nearest: " + strings.Join(like, ", ")
	}
	t.wrong("id", `no %s of that id ships, and a new one needs every field, "name" first%s`, t.kind, hint)
}

// sourceOf names the field that says where another one comes from: what is
// changed never stands beside the source of what it was.
var sourceOf = map[string]string{
	"limit": "limit_source",
	"never": "source",
	"light": "minutes_source", "normal": "minutes_source", "heavy": "minutes_source", "longest": "minutes_source",
}

// over is t with the fields of base that it lacks. Its mistakes are those of
// t's file. Where t keeps out what may else be washed, only the names remain.
func (t *table) over(base *table) *table {
	for _, field := range slices.Sorted(maps.Keys(t.fields)) {
		if source := sourceOf[field]; source != "" && t.fields[source] == nil {
			t.wrong(field, "%q is changed without %q; write there where it comes from", field, source)
		}
	}
	fields := maps.Clone(base.fields)
	if t.fields["never"] != nil && base.fields["never"] == nil {
		maps.DeleteFunc(fields, func(field string, _ any) bool {
			return !slices.Contains([]string{"id", "name", "plural", "aliases"}, field)
		})
	}
	maps.Copy(fields, t.fields)
	return &table{document: t.document, kind: t.kind, fields: fields, at: t.at}
}
