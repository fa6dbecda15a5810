package catalog_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/plain"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
)

// own lays text over what ships, as a file called ours.toml.
func own(text string) (*catalog.Catalog, error) {
	return catalog.Load(assets.FS, catalog.Own{File: "ours.toml", Text: []byte(text)})
}

func mustOwn(t *testing.T, text string) *catalog.Catalog {
	t.Helper()
	c, err := own(text)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestOwnTableChangesOnlyTheFieldsItHas(t *testing.T) {
	c := mustOwn(t, `[[item]]
id = "cylinder"
light = 4
normal = 6
heavy = 8
minutes_source = "our maker's paper, rev. 3"
aliases = ["jug"]
`)
	want, err := load(t).Item("cylinder")
	if err != nil {
		t.Fatal(err)
	}
	want.Minutes.Light, want.Minutes.Normal, want.Minutes.Heavy = 4, 6, 8
	want.Minutes.Source = "our maker's paper, rev. 3"
	want.Aliases = []string{"jug"}
	got, err := c.Item("jug")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("(-want +got)", diff)
	}
}

// The rest of the catalog, and the order that pickers show, stay.
func TestOwnTableLeavesTheOthers(t *testing.T) {
	shipped := load(t)
	for name, text := range map[string]string{
		"empty":       "",
		"a comment":   "# nothing yet\n",
		"same as now": "[[item]]\nid = \"mask\"\n[[detergent]]\nid = \"plain\"\n",
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(shipped, mustOwn(t, text)); diff != "" {
				t.Error("(-want +got)", diff)
			}
		})
	}
	changed := mustOwn(t, "[[item]]\nid = \"mask\"\nfloats = true\nlid = \"must\"\n")
	for i, item := range changed.Items {
		if item.ID != shipped.Items[i].ID {
			t.Errorf("place %d: got %s, want %s", i, item.ID, shipped.Items[i].ID)
		}
		if item.ID != "mask" && !cmp.Equal(item, shipped.Items[i]) {
			t.Errorf("%s changed too", item.ID)
		}
	}
}

func TestOwnItemIsAdded(t *testing.T) {
	text := strings.NewReplacer(`"axe"`, `"saddle"`, `"Axe"`, `"Saddle"`, `"axes"`, `"saddles"`, `"hose"`, `"kite"`, `"Hose"`, `"Kite"`).Replace(item)
	c := mustOwn(t, "\xef\xbb\xbf"+text) // an editor's byte order mark
	got, err := c.Item("saddles")
	if err != nil || got.ID != "saddle" || c.Items[len(c.Items)-1].ID != "saddle" {
		t.Errorf("got %q, %v, want saddle, last", got.ID, err)
	}
	const want = "Not in the bath: kite, because it is long. Do this: by hand. Wake the gear officer if in doubt."
	if _, err := c.Item("kite"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %v", err, want)
	}
}

// A station may keep out what may be washed elsewhere, and not the reverse.
func TestOwnTableKeepsOut(t *testing.T) {
	c := mustOwn(t, `[[item]]
id = "light"
never = "ours leak"
instead = "wipe them by hand"
source = "station rule"
`)
	for _, item := range c.Items {
		if item.ID == "light" {
			t.Error("light may still be washed")
		}
	}
	const want = "Not in the bath: sealed hand lights, because ours leak. Do this: wipe them by hand. Wake the gear officer if in doubt."
	if _, err := c.Item("torch"); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %v", err, want)
	}
}

func TestOwnDetergent(t *testing.T) {
	c := mustOwn(t, "[[detergent]]\nid = \"plain\"\nname = \"Barrel soap\"\nratio = 64\n"+soap)
	plain, err := c.Detergent("plain")
	if err != nil || plain.Name != "Barrel soap" || plain.Ratio != 64 || plain.Strongest != 32 || plain.Size != units.Gallons(1) {
		t.Errorf("got %+v, %v, want Barrel soap, 64:1, and the rest as shipped", plain, err)
	}
	if added, err := c.Detergent("soap"); err != nil || added.Ratio != 40 {
		t.Errorf("got %+v, %v, want soap at 40:1", added, err)
	}
}

func TestOwnMistakes(t *testing.T) {
	tests := []struct {
		name string
		text string
		want string
	}{
		{"no TOML", "[[item]]\nid = mask\n", `ours.toml:2: this is not TOML: `},
		{"unknown table", "[[gear]]\nid = \"mask\"\n", `ours.toml:1: "gear" is not known here; write [[item]] or [[detergent]]`},
		{"single table", "[item]\nid = \"mask\"\n", `ours.toml:1: write each item as a table of its own, [[item]]`},
		{"misspelt field", "[[item]]\nid = \"mask\"\n\nlite = 3\n", `ours.toml:4: item "mask": "lite" is not a field of it; fields are id, `},
		{"new and incomplete", "\n[[item]]\nid = \"saddle\"\nname = \"Saddle\"\n", `ours.toml:2: item "saddle": "plural" is missing; write words in quotes`},
		{"misspelt id", "\n[[item]]\nid = \"msk\"\nlight = 3\n", `ours.toml:3: item "msk": no item of that id ships, and a new one needs every field, "name" first; nearest: mask`},
		{"like no id", "[[item]]\nid = \"saxophone\"\n", `ours.toml:2: item "saxophone": no item of that id ships, and a new one needs every field, "name" first`},
		{"no id", "[[item]]\nlight = 3\n", `ours.toml:1: item: write in "id", in quotes, which item it changes, or a new one`},
		{"against a shipped number", "[[item]]\nid = \"mask\"\nminutes_source = \"ours\"\nlight = 4.5\n", `ours.toml:1: item "mask": "normal" is 4, shorter than light, 4.5; write no less`},
		{"minutes without source", "[[item]]\nid = \"mask\"\nlight = 2\n", `ours.toml:3: item "mask": "light" is changed without "minutes_source"; write there where it comes from`},
		{"limit without source", "[[item]]\nid = \"mask\"\nlimit = \"120 F\"\n", `ours.toml:3: item "mask": "limit" is changed without "limit_source"; write there where it comes from`},
		{"limit without unit", "[[item]]\nid = \"mask\"\nlimit = \"120\"\nlimit_source = \"ours\"\n", `ours.toml:3: item "mask": "limit": "120" has no unit`},
		{"lid off what floats", "[[item]]\nid = \"cylinder\"\nlid = \"none\"\n", `ours.toml:3: item "cylinder": "lid" is "none", but what floats must have one; write "must"`},
		{"twice", "[[item]]\nid = \"mask\"\n[[item]]\nid = \"mask\"\n", `ours.toml:4: item "mask": it stands at ours.toml:1 too; write one table for it`},
		{"name of another", "[[item]]\nid = \"mask\"\naliases = [\"bottle\"]\n", `ours.toml:1: "bottle" is already a name of "cylinder"; write another`},
		{"what never goes in let in", "[[item]]\nid = \"radio\"\nlight = 3\nminutes_source = \"ours\"\n", `ours.toml:3: item "radio": "light" is not a field of it; fields are id, `},
		{"never without words", "[[item]]\nid = \"radio\"\nnever = \"\"\nsource = \"ours\"\n", `ours.toml:3: item "radio": "never" is empty; write words in quotes`},
		{"kept out without instead", "[[item]]\nid = \"light\"\nnever = \"ours leak\"\nsource = \"ours\"\n", `ours.toml:1: item "light": "instead" is missing; write words in quotes`},
		{"soap stronger than its label", "[[detergent]]\nid = \"plain\"\nratio = 20\n", `ours.toml:1: detergent "plain": "strongest" is 32:1, weaker than the ratio, 20:1`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := own(tt.text)
			wantMistake(t, err, tt.want)
			for _, m := range mistakes(t, err) {
				if m.File != "ours.toml" || m.Line < 1 || m.Line > strings.Count(tt.text, "\n")+1 {
					t.Errorf("%v stands outside the file", m)
				}
			}
		})
	}
}

// mistakes are those within err.
func mistakes(t testing.TB, err error) catalog.Mistakes {
	t.Helper()
	var all catalog.Mistakes
	if !errors.As(err, &all) || len(all) == 0 {
		t.Fatalf("got %v, want mistakes", err)
	}
	return all
}

// Two files of one's own are laid over one after the other.
func TestTwoOwnFiles(t *testing.T) {
	c, err := catalog.Load(assets.FS,
		catalog.Own{File: "items.toml", Text: []byte("[[item]]\nid = \"mask\"\nstandard = \"ours\"\n")},
		catalog.Own{File: "detergents.toml", Text: []byte("[[detergent]]\nid = \"plain\"\nratio = 64\n")})
	if err != nil {
		t.Fatal(err)
	}
	mask, _ := c.Item("mask")
	plain, _ := c.Detergent("plain")
	if mask.Standard != "ours" || plain.Ratio != 64 {
		t.Errorf("got %q and %v:1, want ours and 64:1", mask.Standard, plain.Ratio)
	}
}

// Whatever a station's file holds, it is read or refused with a line of it,
// and what never goes in by the shipped rules still does not.
func FuzzOwn(f *testing.F) {
	shipped, err := fs.ReadFile(assets.FS, "items.toml")
	if err != nil {
		f.Fatal(err)
	}
	for cut := 0; cut < len(shipped); cut += 997 {
		f.Add(string(shipped[:cut]))
	}
	f.Add("[[item]]\nid = \"radio\"\nnever = \"\"\n")
	f.Add("[[item]]\nid = \"light\"\nnever = \"ours leak\"\ninstead = \"wipe\"\nsource = \"ours\"\n")
	f.Add(item)
	f.Add(soap)
	f.Add("[[item]]\nid = \"mask\"\nname = \"Ma\\u001b[2J\\u202esk\"\n")
	f.Add("[[item]]\nid = \"mask\"\nname = \"" + strings.Repeat("👩\u200d🚒", 300) + "\"\n")
	f.Add("[[item]]\nid = \"mask\"\nminutes = { light = 1e309, heavy = nan, normal = -0.0 }\n")
	f.Add("a = " + strings.Repeat("[", 3000))
	f.Add("[[item]]\n" + strings.Repeat("a.", 3000) + "a = 1\n")
	f.Add("[[item]]\nid = \"mask\"\nid = \"pack\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := own(text)
		if err != nil {
			for _, m := range mistakes(t, err) {
				if m.File != "ours.toml" || m.Line < 1 || m.Line > strings.Count(text, "\n")+1 || m.Say == "" {
					t.Errorf("%+v names no line of the file", m)
				}
			}
			return
		}
		for _, item := range c.Items {
			if s := item.Name + item.Plural + item.Limit.Source; plain.Line(s) != s {
				t.Errorf("%s is called %q", item.ID, s)
			}
		}
		for _, name := range []string{"radio", "regulator", "hose", "soft-goods"} {
			if _, err := c.Item(name); !errors.As(err, new(*catalog.ExcludedError)) {
				t.Errorf("%s may go in", name)
			}
		}
	})
}
