package plain_test

import (
	"encoding/json"
	"errors"
	"maps"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"bathside/internal/plain"
)

// hostile are names that somebody may type, paste or import to do harm, or
// just has.
var hostile = []string{
	"Lee\x1b[2J\x1b]52;c;aGk=\x07Tran", "a\r\nb\tc\x00", "\u009b31mred", "\u202Etxet\u202C", "\u2066iso\u2069 \u200f",
	"zero\u200bwidth\ufeff", "e\u0301\u0302\u0303\u0304\u0305\u0306\u0307", "👩\u200d🚒 Ana", "❤\ufe0f", "\xff\xfe lone", "\ufffe\U0001ffff",
	"שלום עליכם", "مرحبا", "ㅤ\u3164\u115f", "\u2028\u2029\u0085", strings.Repeat("👨\u200d👩\u200d👧", 200), "\U000e0041\U000e007f", "",
}

func TestLine(t *testing.T) {
	for in, want := range map[string]string{
		"Lee Tran": "Lee Tran", "  two ": "  two ", "a\tb\nc": "a b c", "Lee\x1b[2J": "Lee[2J", "\u202Etxet": "txet",
		"José Łucja": "José Łucja", "👩\u200d🚒": "👩🚒", "e\u0301": "e\u0301", "\xffx": "x", "שלום": "שלום", "a\u0301\u0302\u0303\u0304\u0305b": "a\u0301\u0302\u0303\u0304b",
	} {
		if got := plain.Line(in); got != want {
			t.Errorf("Line(%q) got %q, want %q", in, got, want)
		}
	}
}

func TestIn(t *testing.T) {
	for in, want := range map[string]string{
		"118 °F ± 0.05": "118 F +/- 0.05", "José Łucja Strauß": "Jose Lucja Strauss", "✓ ▸ … – ─": "+ > ... - -", "שלום": "????", "👩": "?", "ﬁre": "fire",
	} {
		if got := plain.In(in, plain.ASCII); got != want {
			t.Errorf("In(%q) got %q, want %q", in, got, want)
		}
	}
	if got := plain.In("José ✓ 118 °F ▲ Łucja", plain.PC); got != "José + 118 °F ▲ Lucja" {
		t.Errorf("in page 437 got %q", got)
	}
}

// TestLineAgreesWithTheTables goes through all of Unicode: what the shortcut
// lets by is nothing that the tables would take out.
func TestLineAgreesWithTheTables(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		harmful := unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Cs, unicode.Variation_Selector, unicode.Noncharacter_Code_Point)
		got := plain.Line(string([]rune{'a', r, r, r, r, r, 'b'}))
		switch {
		case harmful && strings.ContainsRune(got, r) && r != utf8.RuneError:
			t.Errorf("%U is kept", r)
		case unicode.Is(unicode.M, r) && strings.Count(got, string(r)) > plain.MostMarks:
			t.Errorf("%U stands five times on a letter", r)
		case unicode.In(r, unicode.L, unicode.N, unicode.P) && !unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) && strings.Count(got, string(r)) < 5:
			t.Errorf("%U is lost: %q", r, got)
		}
	}
}

func TestApart(t *testing.T) {
	for in, want := range map[string]string{
		"Lee 9.82":              "Lee 9.82",
		"שלום 9.82":             "שלום\u200e 9.82",
		"07:05 שלום עולם  9.82": "07:05 שלום עולם\u200e  9.82",
		"שָׁלוֹם, مرحبا":        "שָׁלוֹם\u200e, مرحبا\u200e",
		"שלום ":                 "שלום\u200e ",
		"שלום\x1b[m":            "שלום\u200e\x1b[m",
	} {
		if got := plain.Apart(in); got != want {
			t.Errorf("Apart(%q) got %q, want %q", in, got, want)
		}
	}
}

// TestEscape: JSON reads back as it was, and shows nothing that does harm.
func TestEscape(t *testing.T) {
	for _, s := range hostile {
		b, err := json.Marshal(map[string]string{s: s})
		if err != nil {
			t.Fatal(err)
		}
		escaped := plain.Escape(string(b) + "\n")
		if strings.ContainsFunc(escaped, func(r rune) bool { return unicode.IsControl(r) && r != '\n' || unicode.Is(unicode.Cf, r) }) {
			t.Errorf("%q still holds %q", s, escaped)
		}
		var before, after map[string]string
		if err := errors.Join(json.Unmarshal(b, &before), json.Unmarshal([]byte(escaped), &after)); err != nil || !maps.Equal(before, after) {
			t.Errorf("%q became %q (%v)", before, after, err)
		}
	}
}

// TestPC holds the letters of code page 437 against Unicode's table of it.
func TestPC(t *testing.T) {
	for b := range 256 {
		if r := charmap.CodePage437.DecodeByte(byte(b)); b >= ' ' && !plain.PC(r) {
			t.Errorf("%q at %#x is missing", r, b)
		}
	}
	for r := rune(0x80); r < 0x3000; r++ {
		_, there := charmap.CodePage437.EncodeRune(r)
		if pictures := strings.ContainsRune("♦○▲▼", r); plain.PC(r) && !there && !pictures {
			t.Errorf("%q is not in the page", r)
		}
	}
}

// FuzzLine: whatever the text, a line of it is harmless, valid and stays so,
// and its stand-ins are of the letters that are there.
func FuzzLine(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := plain.Line(s)
		marks := 0
		for _, r := range got {
			if unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == utf8.RuneError {
				t.Errorf("%q keeps %U", s, r)
			}
			if marks++; !unicode.Is(unicode.M, r) {
				marks = 0
			}
			if marks > plain.MostMarks {
				t.Errorf("%q keeps %d marks on a letter", s, marks)
			}
		}
		if back := strings.ReplaceAll(plain.Apart(got), "\u200e", ""); back != got {
			t.Errorf("%q set apart lost letters: %q", got, back)
		}
		if again := plain.Line(got); again != got {
			t.Errorf("%q became %q, then %q", s, got, again)
		}
		for _, has := range []plain.Letters{plain.ASCII, plain.PC} {
			if strings.ContainsFunc(plain.In(got, has), func(r rune) bool { return !has(r) }) {
				t.Errorf("%q became %q", got, plain.In(got, has))
			}
		}
	})
}
