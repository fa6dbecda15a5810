// Package plain makes text fit to be shown: what people typed, what a file held
// and what an error repeats of it. No text that went through Line can move a
// cursor, change a terminal, turn a line around or stand where it cannot be
// seen; none that went through In asks a terminal for a letter it lacks.
//
// It says nothing about what may be recorded. It is pure, and everything may
// use it.
package plain

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// MostMarks are the marks that may stand on one letter. The scripts in use do
// with fewer (common practice, no source); what has more climbs over the rows
// above and below.
const MostMarks = 4

// Line is s as one line that is safe to show: white space of any kind becomes a
// space; control characters, escapes, direction overrides, zero widths and
// other letters without a shape are left out, and so are the marks on a letter
// beyond MostMarks. Line of a Line is the same again.
func Line(s string) string {
	if ordinary(s) {
		return s
	}
	marks := 0
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			r = ' '
		}
		if hidden(r) {
			return -1
		}
		if !unicode.Is(unicode.M, r) {
			marks = 0
			return r
		}
		if marks++; marks > MostMarks {
			return -1
		}
		return r
	}, s)
}

// Escape writes what Line would leave out of a JSON text as \u escapes, so that
// it is safe to show and still reads back as it was. Ends of lines stay.
func Escape(json string) string {
	if ordinary(json) {
		return json
	}
	var b strings.Builder
	for _, r := range json {
		switch {
		case r == '\n' || !hidden(r):
			b.WriteRune(r)
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	return b.String()
}

// ordinary spares the common text, letters and the signs of a screen, a look at
// each in the tables.
func ordinary(s string) bool {
	for _, r := range s {
		if !shaped(r) {
			return false
		}
	}
	return true
}

// shaped reports whether r is of a range in which everything has a shape and a
// place of its own: Latin, dashes and dots, arrows, frames, blocks, braille.
func shaped(r rune) bool {
	switch {
	case r < 0x7f:
		return r >= ' '
	case r < 0x300:
		return r > 0xa0 && r != 0xad
	}
	return r >= 0x2010 && r < 0x2028 || r >= 0x2100 && r < 0x2c00
}

// hidden reports whether r has no shape of its own, or is none. Format
// characters (Cf) are the zero widths and all that turn the direction of text.
func hidden(r rune) bool {
	return r == utf8.RuneError || unicode.IsControl(r) ||
		unicode.In(r, unicode.Cf, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point, unicode.Noncharacter_Code_Point)
}
