package plain

import (
	"strings"
	"unicode"
)

// mark is the left-to-right mark: no letter, no width, and the one sign of
// direction that can turn nothing around.
const mark = '\u200e'

// Apart is s, where right-to-left text ends in a left-to-right mark: a terminal
// that sets such text from the right would else take the figures behind a name
// for part of it, and set them before it (UAX #9, rules N1 and W2). It is for
// what leaves for a terminal, and nothing that is kept or measured.
func Apart(s string) string {
	if !strings.ContainsFunc(s, leftward) {
		return s
	}
	var b strings.Builder
	inside, spaces := false, 0 // in such text, and the spaces since its last letter
	end := func() {
		if inside {
			b.WriteRune(mark)
		}
		b.WriteString(strings.Repeat(" ", spaces))
		inside, spaces = false, 0
	}
	for _, r := range s {
		switch {
		case r == ' ' && inside && spaces == 0:
			spaces++ // one space joins the words of a name
			continue
		case leftward(r):
			b.WriteString(strings.Repeat(" ", spaces))
			inside, spaces = true, 0
		case inside && spaces == 0 && unicode.Is(unicode.M, r):
		default:
			end()
		}
		b.WriteRune(r)
	}
	end()
	return b.String()
}

// leftward reports whether r is written from the right, by the blocks that are
// set aside for such scripts (Unicode, DerivedBidiClass.txt, from memory).
func leftward(r rune) bool {
	return r >= 0x590 && r < 0x900 || r >= 0xfb1d && r < 0xfe00 || r >= 0xfe70 && r < 0xff00 || r >= 0x10800 && r < 0x11000 || r >= 0x1e800 && r < 0x1f000
}
