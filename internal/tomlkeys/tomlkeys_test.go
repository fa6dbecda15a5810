package tomlkeys_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/tomlkeys"
)

func TestIn(t *testing.T) {
	const text = `# a remark
name = "x" # another
words = [
  "a",
  "b",
]
say = """
[not.a.table]
"""

[[item]]
id   = "mask"
size.width = 1
[item.limits]
"odd key" = { a = 1 }
  [[ item ]]
x.y."z.w" = 2
`
	want := []tomlkeys.Key{
		{tomlkeys.Field, "name", 2}, {tomlkeys.Field, "words", 3}, {tomlkeys.Field, "say", 7},
		{tomlkeys.ListTable, "item", 11}, {tomlkeys.Field, "id", 12}, {tomlkeys.Field, "size.width", 13},
		{tomlkeys.Table, "item.limits", 14}, {tomlkeys.Field, "odd key", 15},
		{tomlkeys.ListTable, "item", 16}, {tomlkeys.Field, "x.y.z.w", 17},
	}
	if diff := cmp.Diff(want, slices.Collect(tomlkeys.In([]byte(text)))); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	cut := slices.Collect(tomlkeys.In([]byte("a = 1\r\nb = 2\r\n[c\nd = 3\n")))
	if diff := cmp.Diff([]tomlkeys.Key{{tomlkeys.Field, "a", 1}, {tomlkeys.Field, "b", 2}}, cut); diff != "" {
		t.Errorf("what is no TOML further on (-want +got)\n%s", diff)
	}
	for k := range tomlkeys.In([]byte(text)) {
		if k.Path != "name" {
			t.Errorf("went on to %v", k)
		}
		break
	}
}

func FuzzIn(f *testing.F) {
	f.Add([]byte("a = 1\n[[b]]\nc.d = {e = 2}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		line := 1
		for k := range tomlkeys.In(text) {
			if k.Line < line || k.Line > 1+len(text) {
				t.Fatalf("%v after line %d", k, line)
			}
			line = k.Line
		}
	})
}
