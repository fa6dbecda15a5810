package console

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
)

// TestReadmeKeys keeps the table of keys in the README that of the bindings.
func TestReadmeKeys(t *testing.T) {
	const path = "../../README.md"
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(b), "\n## Keys\n")
	if !ok {
		t.Fatal("the README has no section of keys")
	}
	was, tail, ok := strings.Cut(rest, "\n## ")
	if !ok {
		t.Fatal("nothing follows the section of keys")
	}
	want := keySection()
	if *rewrite {
		if err := os.WriteFile(path, []byte(head+"\n## Keys\n"+want+"\n## "+tail), 0o644); err != nil {
			t.Fatal(err)
		}
		was = want
	}
	if was != want {
		t.Error("the keys in the README are not the console's: go test ./internal/console -run ReadmeKeys -rewrite")
	}
}

func keySection() string {
	var s strings.Builder
	s.WriteString("\n`?` lists these too, those of the screen first, and does what is marked. Letters are shortcuts: arrows, `tab`, `enter`,\n`esc` and digits reach everything. `h` `j` `k` `l` are arrows.\n")
	where := ""
	for _, k := range KeyTable() {
		if k.Where != where {
			where = k.Where
			fmt.Fprintf(&s, "\n| %s | |\n|---|---|\n", where)
		}
		fmt.Fprintf(&s, "| `%s` | %s |\n", k.Key, k.Say)
	}
	return s.String()
}

// Every key that a screen offers is in the table.
func TestTheKeyTableIsWhole(t *testing.T) {
	table := KeyTable()
	for _, press := range [][]string{{"1"}, {"tab"}, {"tab", "tab"}, {"2"}, {"2", "v"}, {"3"}, {"4"}, {"4", "v"}, {"5"}, {"6"}, {"6", "enter"}, {"7"}} {
		d := sit(t, 100, 30, true)
		d.press(press...)
		for _, b := range d.m.screens[d.m.shown].bindings() {
			if !slices.ContainsFunc(table, func(k KeyLine) bool { return k.Key == b.Help().Key || k.Key == b.Keys()[0] }) {
				t.Errorf("%v: %q (%s) is not in the table", press, b.Help().Key, b.Help().Desc)
			}
		}
	}
}
