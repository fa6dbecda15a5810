package units

import (
	"strconv"
	"strings"
	"unicode"
)

// Error is an input that was not taken: what was read, what is allowed, and
// what to write instead. The parts are phrases without a full stop; what was
// typed stands in them quoted and cut to length, so that they are safe to print.
type Error struct {
	Read    string // `"64 psi" is not a volume`
	Allowed string // `a volume is in gal, qt, pt, fl oz, L or mL`; empty when Do says it
	Do      string // `write it like 64gal or 242L`
}

// Error returns the parts as one sentence.
func (e *Error) Error() string {
	if e.Allowed == "" {
		return e.Read + ": " + e.Do
	}
	return e.Read + "; " + e.Allowed + ": " + e.Do
}

// longest is how much of an input a sentence repeats, in runes.
const longest = 32

// quote returns s trimmed, cut and quoted, with control characters escaped.
func quote(s string) string {
	return strconv.Quote(cut(strings.TrimSpace(s)))
}

// cut shortens s to longest runes.
func cut(s string) string {
	n := 0
	for i := range s {
		if n == longest {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// commaError asks what the comma in s means, and never decides.
func commaError(s string) *Error {
	e := &Error{Read: quote(s) + " has a comma", Do: "write the number with a point or without"}
	text := strings.TrimSpace(s)
	before, after, _ := strings.Cut(text, ",")
	lone := !strings.ContainsAny(after, ",.") && !strings.Contains(before, ".")
	if lone && repeatable(text) && endsInDigit(before) && digits(after) > 0 {
		e.Do = "write " + before + "." + after + " with a point, or " + before + after
	}
	return e
}

// repeatable tells whether s is short and plain enough to stand in advice
// without quotes.
func repeatable(s string) bool {
	odd := func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar }
	return len(s) <= longest && !strings.ContainsFunc(s, odd)
}

func endsInDigit(s string) bool {
	return s != "" && digits(s[len(s)-1:]) == 1
}
