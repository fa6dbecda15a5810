package units

import (
	"math"
	"strconv"
	"strings"
)

// largest is the greatest number taken. Nothing at a station comes near it,
// and all up to it converts and prints safely.
const largest = 999_999_999

// splitNumber cuts s after the plain decimal number it starts with. It takes
// a sign, a point and an exponent, and none of the other forms of Go: no
// 0x1p4, 1_000 or Inf. The number is empty when there is none.
func splitNumber(s string) (number, rest string) {
	i := sign(s)
	whole := digits(s[i:])
	i += whole
	part := 0
	if i < len(s) && s[i] == '.' {
		part = digits(s[i+1:])
		i += 1 + part
	}
	if whole+part == 0 {
		return "", s
	}
	i += exponent(s[i:])
	return s[:i], s[i:]
}

// sign returns 1 when s starts with a sign, else 0.
func sign(s string) int {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		return 1
	}
	return 0
}

// digits counts the digits that s starts with.
func digits(s string) int {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return i
		}
	}
	return len(s)
}

// exponent returns the length of the exponent that s starts with, or 0.
func exponent(s string) int {
	if s == "" || s[0] != 'e' && s[0] != 'E' {
		return 0
	}
	i := 1 + sign(s[1:])
	n := digits(s[i:])
	if n == 0 {
		return 0
	}
	return i + n
}

// value returns the value of the number that splitNumber cut from s.
func value(s, number string) (float64, error) {
	x, err := strconv.ParseFloat(number, 64)
	if math.Abs(x) > largest {
		return 0, &Error{
			Read:    quote(s) + " is too large",
			Allowed: "numbers go up to 999999999",
			Do:      "check the number",
		}
	}
	return x, err
}

// A plain is a number without a unit.
type plain struct {
	noun    string // "a pH"
	example string // "9.82"
}

// read returns the value of s, which must be a number and no more.
func (p plain) read(s string) (float64, error) {
	text := strings.TrimSpace(s)
	if text == "" {
		return 0, &Error{
			Read:    "nothing was written",
			Allowed: p.noun + " is wanted",
			Do:      "write it like " + p.example,
		}
	}
	if strings.Contains(text, ",") {
		return 0, commaError(s)
	}
	number, rest := splitNumber(text)
	switch {
	case number == "":
		return 0, &Error{
			Read:    quote(s) + " is not a number",
			Allowed: p.noun + " is wanted",
			Do:      "write it like " + p.example,
		}
	case rest != "":
		return 0, &Error{
			Read:    quote(s) + " has more than a number",
			Allowed: p.noun + " has no unit",
			Do:      "write " + cut(number),
		}
	}
	x, err := value(s, number)
	return x + 0, err // -0 becomes 0
}

func scanFloat(s string) (float64, error) {
	return plain{"a number", "12.5"}.read(s)
}

func scanInt(s string) (int, error) {
	x, err := plain{"a whole number", "12"}.read(s)
	if err != nil {
		return 0, err
	}
	if x != math.Trunc(x) {
		return 0, &Error{
			Read:    quote(s) + " is not a whole number",
			Allowed: "only whole ones count here",
			Do:      "write it like 12",
		}
	}
	return int(x), nil
}
