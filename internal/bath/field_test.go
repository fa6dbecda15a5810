package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// TestEveryExampleCanBeTyped: what a form shows as an example is taken, is
// printed back so that it can be typed again, and comes back the same.
func TestEveryExampleCanBeTyped(t *testing.T) {
	for _, spec := range bath.Specs() {
		for _, f := range spec.Fields {
			for _, sys := range []units.System{units.US, units.SI} {
				t.Run(string(spec.Kind)+" "+f.Name+" "+sys.String(), func(t *testing.T) {
					printed := retype(t, spec, f, sys, f.Example)
					if printed == "" {
						t.Fatal("it prints as nothing")
					}
					if again := retype(t, spec, f, sys, printed); again != printed {
						t.Errorf("%q prints as %q, then as %q", f.Example, printed, again)
					}
				})
			}
		}
	}
}

// retype sets a field and prints it.
func retype(t *testing.T, spec *bath.Spec, f bath.Field, sys units.System, text string) string {
	t.Helper()
	body := emptied(t, spec)
	if err := f.Set(body, sys.Scan, text); err != nil {
		t.Fatal(err)
	}
	return f.Get(body, sys)
}

// emptied is a new body without what New fills in.
func emptied(t *testing.T, spec *bath.Spec) bath.Body {
	t.Helper()
	body := spec.New()
	switch b := body.(type) {
	case *bath.Wash:
		*b = bath.Wash{}
	case *bath.Water:
		*b = bath.Water{}
	}
	return body
}

// Every line that holds its examples is one that a form could make, so its
// words are among those of the field.
func TestExamplesAreAmongTheWords(t *testing.T) {
	for _, spec := range bath.Specs() {
		for _, f := range spec.Fields {
			if len(f.Words) > 0 && !strings.Contains(" "+strings.Join(f.Words, " ")+" ", " "+f.Example+" ") {
				t.Errorf("%s %s: example %q is none of %v", spec.Kind, f.Name, f.Example, f.Words)
			}
		}
	}
}

func TestNothingTypedIsRefusedOnlyWhereItIsNeeded(t *testing.T) {
	for _, spec := range bath.Specs() {
		for _, f := range spec.Fields {
			err := f.Set(spec.New(), units.Scan, "  ")
			if (err == nil) != f.Optional {
				t.Errorf("%s %s: optional %v, got %v", spec.Kind, f.Name, f.Optional, err)
			}
		}
	}
}

func TestFieldRefused(t *testing.T) {
	long := strings.Repeat("9", 60)
	tests := []struct{ kind, field, text, id, say string }{
		{"reading", "ph", "", "missing", "pH is missing: give it like 10.10"},
		{"reading", "ph", "NaN", "input", "pH: "},
		{"reading", "sample", "121", "input", "sample at: "},
		{"reading", "sample", "1e400F", "input", "sample at: "},
		{"reading", "baseline", "perhaps", "input", `first reading: "perhaps" is neither yes nor no`},
		{"drain", "route", "river", "input", `where to: "river" is not one of sewer, hauler, hold`},
		{"strike", "target", "forty", "input", `line: "forty" is not an entry number: it is a whole number like 41`},
		{"strike", "target", "-1", "input", "is not an entry number"},
		{"strike", "target", long, "input", strings.Repeat("9", 40) + "…"},
		{"fill", "volume", "64mg", "input", "volume: "},
		{"handover", "note", strings.Repeat("é", bath.MostText+1), "input", "note: 501 letters are too many: at most 500; say the rest in a line of its own"},
		{"member", "name", strings.Repeat("👩\u200d🚒", 300), "input", "name: 600 letters are too many"},
	}
	for _, tt := range tests {
		t.Run(tt.kind+" "+tt.field+" "+tt.text, func(t *testing.T) {
			spec, _ := bath.SpecOf(bath.Kind(tt.kind))
			f, ok := spec.Field(tt.field)
			if !ok {
				t.Fatal("no such field")
			}
			checkRefusal(t, f.Set(spec.New(), units.Scan, tt.text), tt.id, tt.say)
		})
	}
}

// TestTextIsCleaned: what changes how a terminal or a page draws the text
// around it never gets into a name or a note. The marks are those of Unicode's
// category Cf, of UAX #9 (bidi) and the variation selectors.
func TestTextIsCleaned(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"plain", "Ana Reyes", "Ana Reyes"},
		{"letters of other scripts", "Zoë Łuczak 李 Ольга", "Zoë Łuczak 李 Ольга"},
		{"escape sequence", "\x1b[31mred\x1b[0m", "[31mred[0m"},
		{"bell, delete, C1", "a\x07b\x7fc\u009bd", "abcd"},
		{"tab and lines", "a\tb\nc\r\nd\u2028e", "a b c  d e"},
		{"zero width", "a\u200bb\u200cc\u200dd\u2060e\ufefff", "abcdef"},
		{"bidi", "a\u202eb\u202cc\u2066d\u2069e\u200ef\u061cg", "abcdefg"},
		{"soft hyphen, variation, tag", "a\u00adb\ufe0fc\U000E0041d", "abcd"},
		{"not UTF-8", "a\xffb", "ab"},
		{"spaces around", "  a  ", "a"},
	}
	spec, _ := bath.SpecOf("handover")
	note, _ := spec.Field("note")
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := new(bath.Handover)
			if err := note.Set(h, units.Scan, tt.text); err != nil {
				t.Fatal(err)
			}
			if h.Note != tt.want {
				t.Errorf("got %q, want %q", h.Note, tt.want)
			}
			begun(t).log(crew, h) // and the log book takes it
		})
	}
}
