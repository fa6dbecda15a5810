package catalog_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"bathside/assets"
	"bathside/internal/catalog"

	"github.com/google/go-cmp/cmp"
)

// item is one good table of each kind; the table tests change a line of it.
const item = `[[item]]
id = "axe"
name = "Axe"
plural = "axes"
standard = "department rule"
light = 3
normal = 4
heavy = 5
longest = 6
minutes_source = "ours"
floats = false
lid = "none"
basket = "either"
limit = "130 F"
limit_source = "ours"
size = ["30 in", "8 in", "2 in"]
mass = "7 lb"
displaces = "1 L"
checks = [{ say = "dry", why = "rust" }]
care = [{ step = "rinse", say = "rinse" }]
[[item]]
id = "hose"
name = "Hose"
plural = "hose"
never = "it is long"
instead = "by hand"
source = "ours"
`

const soap = `[[detergent]]
id = "soap"
name = "Soap"
ratio = 40
strongest = 20
family = "unknown"
inhibited = false
ph = [9.5, 10.5]
container = "jug"
size = "1 gal"
`

func loadText(items, soaps string) error {
	_, err := catalog.Load(fstest.MapFS{
		"items.toml":      {Data: []byte(items)},
		"detergents.toml": {Data: []byte(soaps)},
	})
	return err
}

func TestGoodTablesLoad(t *testing.T) {
	if err := loadText(item, soap); err != nil {
		t.Error(err)
	}
}

func TestItemMistakes(t *testing.T) {
	tests := []struct {
		name     string
		old, new string
		want     string
	}{
		{"missing field", "plural = \"axes\"\n", "", `items.toml:1: item "axe": "plural" is missing; write words in quotes`},
		{"unknown field", "light = 3", "light = 3\nlite = 3", `items.toml:7: item "axe": "lite" is not a field of it; fields are id, `},
		{"negative minutes", "light = 3", "light = -3", `items.toml:6: item "axe": "light" is -3; write a number above 0, up to 1000`},
		{"minutes not a number", "light = 3", "light = nan", `items.toml:6: item "axe": "light" is NaN; write a number above 0`},
		{"minutes in words", "light = 3", `light = "three"`, `items.toml:6: item "axe": "light" is three; write a number above 0`},
		{"normal below light", "normal = 4", "normal = 2", `items.toml:7: item "axe": "normal" is 2, shorter than light, 3; write no less`},
		{"longest below heavy", "longest = 6", "longest = 4.5", `items.toml:9: item "axe": "longest" is 4.5, shorter than heavy, 5; write no less`},
		{"unknown lid word", `lid = "none"`, `lid = "maybe"`, `items.toml:12: item "axe": "lid" is "maybe"; write one of must, optional, none`},
		{"floats without a lid", "floats = false", "floats = true", `items.toml:12: item "axe": "lid" is "none", but what floats must have one; write "must"`},
		{"flag in quotes", "floats = false", `floats = "no"`, `items.toml:11: item "axe": "floats" is of the wrong kind; write true or false`},
		{"limit without a unit", `limit = "130 F"`, `limit = "130"`, `items.toml:14: item "axe": "limit": "130" has no unit`},
		{"mass in gallons", `mass = "7 lb"`, `mass = "7 gal"`, `items.toml:17: item "axe": "mass": "7 gal" is a volume, not a mass;`},
		{"no mass at all", `mass = "7 lb"`, `mass = "0 lb"`, `items.toml:17: item "axe": "mass": it must be above 0`},
		{"two sides", `["30 in", "8 in", "2 in"]`, `["30 in", "8 in"]`, `items.toml:16: item "axe": "size" has 2 sides; write length, width, height`},
		{"check without why", `, why = "rust"`, "", `items.toml:19: item "axe": checks 1: "why" is missing; write words in quotes`},
		{"out without instead", `why = "rust"`, `why = "rust", out = "an axe"`, `items.toml:19: item "axe": checks 1: "instead" is missing`},
		{"checks as words", `[{ say = "dry", why = "rust" }]`, `["dry"]`, `items.toml:19: item "axe": "checks" holds dry; write a list such as {`},
		{"unknown care word", `step = "rinse"`, `step = "polish"`, `items.toml:20: item "axe": care 1: "step" is "polish"; write one of rinse, `},
		{"care without rinse", `step = "rinse"`, `step = "dry"`, `items.toml:20: item "axe": "care" begins with "dry"; write "rinse" first`},
		{"number of care without source", `say = "rinse" }`, `say = "rinse", least = "2 min" }`, `items.toml:20: item "axe": care 1: "source" is missing; write words in quotes`},
		{"care in gallons", `say = "rinse" }`, `say = "rinse", least = "2 gal", source = "ours" }`, `items.toml:20: item "axe": care 1: "least": "2 gal" is a volume, not a time`},
		{"wake without out", `why = "rust"`, `why = "rust", wake = "the cook"`, `items.toml:19: item "axe": checks 1: "out" is missing`},
		{"never without instead", "instead = \"by hand\"\n", "", `items.toml:21: item "hose": "instead" is missing; write words in quotes`},
		{"never without source", "instead = \"by hand\"\nsource = \"ours\"\n", "instead = \"by hand\"\n", `items.toml:21: item "hose": "source" is missing; write words in quotes`},
		{"never as yes or no", `"it is long"`, "true", `items.toml:25: item "hose": "never" is of the wrong kind; write words in quotes`},
		{"never with minutes", `never = "it is long"`, "never = \"it is long\"\nlight = 3", `items.toml:26: item "hose": "light" is not a field of it; fields are id, name, plural, aliases, never, instead, wake, source`},
		{"id with a capital", `id = "axe"`, `id = "Axe!"`, `items.toml:2: item "Axe!": "Axe!" is no id; write small letters, digits and hyphens`},
		{"empty name", `name = "Axe"`, `name = " "`, `items.toml:3: item "axe": "name" is empty; write words in quotes`},
		{"a name that moves the cursor", `name = "Axe"`, `name = "A\u001b[2Jxe"`, `items.toml:3: item "axe": "name" holds signs that cannot be shown; write it in one line without them`},
		{"a name without an end", `name = "Axe"`, `name = "` + strings.Repeat("axe", 200) + `"`, `items.toml:3: item "axe": "name" has 600 letters; write at most 500`},
		{"duplicate id", item, item + item, `items.toml:28: "axe" is already a name of "axe"; write another`},
		{"alias of what stays out", `plural = "axes"`, `plural = "Hose"`, `items.toml:21: "hose" is already a name of "axe"; write another`},
		{"slip of the pen", "[[item]]", "[[items]]", `items.toml:1: "items" is not known here; write [[item]]`},
		{"single table", item, "[item]\nid = \"axe\"\n", `items.toml:1: there is no [[item]]: write at least one`},
		{"field before the tables", "[[item]]", "a = 1\nlid = 2\n[[item]]", `items.toml:2: "lid" is not known here; write`},
		{"sub-table", "[[item]]\nid = \"hose\"", "[item.more]\na = 1\n[[item]]\nid = \"hose\"", `items.toml:21: item "axe": "more" is not a field of it`},
		{"list of inline tables", item, "\nitem = [{ id = \"axe\" }]\n", `items.toml:2: write each item as a table of its own, [[item]]`},
		{"no TOML", "light = 3", "light = = 3", `items.toml:6: this is not TOML: `},
		{"escape code as minutes", "light = 3", `light = "\u001b[2J"`, `items.toml:6: item "axe": "light" is  [2J; write a number above 0`},
		{"field twice", "light = 3", "light = 3\nlight = 4", `items.toml:7: this is not TOML: `},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if !strings.Contains(item, tt.old) {
				t.Fatalf("the good table has no %q", tt.old)
			}
			wantMistake(t, loadText(strings.Replace(item, tt.old, tt.new, 1), soap), tt.want)
		})
	}
}

func TestDetergentMistakes(t *testing.T) {
	tests := []struct {
		name     string
		old, new string
		want     string
	}{
		{"unknown family", `"unknown"`, `"magic"`, `detergents.toml:6: detergent "soap": "family" is "magic"; write one of unknown, hydroxide`},
		{"strongest weaker than ratio", "strongest = 20", "strongest = 50", `detergents.toml:5: detergent "soap": "strongest" is 50:1, weaker than the ratio, 40:1`},
		{"range upside down", "[9.5, 10.5]", "[10.5, 9.5]", `detergents.toml:8: detergent "soap": "ph" is [10.5 9.5]; write two numbers, the lower first`},
		{"beyond pH 14", "[9.5, 10.5]", "[9.5, 15]", `detergents.toml:8: detergent "soap": "ph" is [9.5, 15]; pH runs from 0 to 14`},
		{"ratio as words", "ratio = 40", `ratio = "40:1"`, `detergents.toml:4: detergent "soap": "ratio" is 40:1; write a number above 0`},
		{"duplicate id", soap, soap + soap, `detergents.toml:11: "soap" is already a name of "soap"; write another`},
		{"empty file", soap, "", `detergents.toml:1: there is no [[detergent]]: write at least one`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			wantMistake(t, loadText(item, strings.Replace(soap, tt.old, tt.new, 1)), tt.want)
		})
	}
}

// wantMistake looks for a sentence that begins with want.
func wantMistake(t *testing.T, err error, want string) {
	t.Helper()
	var mistake *catalog.MistakeError
	if !errors.As(err, &mistake) {
		t.Fatalf("got %v, want a MistakeError", err)
	}
	for line := range strings.Lines(strings.TrimPrefix(err.Error(), "read catalog: ")) {
		if strings.HasPrefix(line, want) {
			return
		}
	}
	t.Errorf("got  %v\nwant %v", err, want)
}

func TestAllMistakesAtOnce(t *testing.T) {
	bad := strings.NewReplacer("light = 3", "light = 0", `lid = "none"`, `lid = ""`).Replace(item)
	err := loadText(bad, strings.Replace(soap, "ratio = 40", "ratio = -1", 1))
	var got []string
	for line := range strings.Lines(strings.TrimPrefix(err.Error(), "read catalog: ")) {
		place, _, _ := strings.Cut(line, ": ")
		got = append(got, place)
	}
	want := []string{"items.toml:6", "items.toml:12", "detergents.toml:4"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("(-want +got)", diff)
	}
}

// A file cut off anywhere is refused or read, never a crash.
func FuzzLoad(f *testing.F) {
	shipped, err := fs.ReadFile(assets.FS, "items.toml")
	if err != nil {
		f.Fatal(err)
	}
	for cut := 0; cut < len(shipped); cut += 97 {
		f.Add(string(shipped[:cut]))
	}
	f.Add(item)
	f.Add("[item.a]\nb=1\n[[item]]\n")
	f.Fuzz(func(t *testing.T, text string) {
		if err := loadText(text, soap); err != nil && err.Error() == "" {
			t.Error("an error without words")
		}
	})
}
