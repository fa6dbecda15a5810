package chart

import (
	"unicode"

	"github.com/mattn/go-runewidth"
)

// narrow measures by the same table wherever the program runs: the package's
// own default follows the locale.
var narrow = runewidth.Condition{}

// runes returns a label one rune a cell: a row must never be longer than it
// says, in a terminal that counts runes or in one that counts what readers take
// for one character. Marks that have no cell of their own are dropped, and
// whatever else may not take just one becomes a question mark.
func runes(label string) []rune {
	out := make([]rune, 0, len(label))
	for _, r := range label {
		switch {
		case single(r):
			out = append(out, r)
		case !unicode.Is(unicode.M, r) && narrow.RuneWidth(r) > 0:
			out = append(out, '?')
		}
	}
	return out
}

// single reports whether r takes one cell whatever stands beside it. Letters of
// other scripts may join with their neighbours, and so do the letters flags are
// made of.
func single(r rune) bool {
	switch {
	case r < 0x7f:
		return r >= ' '
	case unicode.IsLetter(r):
		return narrow.RuneWidth(r) == 1 && unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic)
	default:
		return narrow.RuneWidth(r) == 1 && unicode.In(r, unicode.N, unicode.P, unicode.S) &&
			!unicode.Is(unicode.Regional_Indicator, r)
	}
}
