package guide_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"unicode"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/guide"
)

// FuzzLoad: a file is a guide whose every word can be shown, or is refused with
// lines of it; nothing else.
func FuzzLoad(f *testing.F) {
	files, err := fs.Glob(assets.FS, "guides/*.toml")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range files {
		text, err := fs.ReadFile(assets.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add(whole)
	for _, word := range []string{`Rinse\u001b[2J`, `\u202etxet`, `\u0000`, `👩\u200d🚒`, `\U0010ffff`, strings.Repeat("rinse", 5000)} {
		f.Add(strings.Replace(whole, "Rinse it", word, 1))
	}
	f.Add(strings.Replace(whole, `check = "rinsed"`, `wait = "1e309 min"`, 1))
	f.Add("a = " + strings.Repeat("[", 3000))
	f.Add(strings.Repeat("a.", 3000) + "a = 1")
	f.Fuzz(func(t *testing.T, text string) {
		guides, err := guide.Load(fstest.MapFS{"guides/x.toml": {Data: []byte(text)}}, typed)
		if err != nil {
			var found catalog.Mistakes
			if !errors.As(err, &found) || len(found) == 0 {
				t.Fatalf("got %v, want mistakes", err)
			}
			for _, m := range found {
				if m.Line < 1 || m.Line > strings.Count(text, "\n")+1 {
					t.Errorf("%+v names no line of the file", m)
				}
				printable(t, m.Say)
			}
			return
		}
		for _, g := range guides {
			printable(t, g.Name+g.For)
			for _, s := range g.Steps {
				printable(t, s.What+s.Why+s.Caution+s.Check)
			}
		}
	})
}

func printable(t *testing.T, s string) {
	t.Helper()
	if strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) {
		t.Errorf("it shows %q", s)
	}
}
