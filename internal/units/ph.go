package units

import (
	"strconv"
	"strings"
)

// ParsePH reads a pH from 0 to 14, with its point: "9.82". Its error is an
// [*Error].
func ParsePH(s string) (PH, error) {
	x, err := plain{"a pH", "9.82"}.read(s)
	if err != nil {
		return 0, err
	}
	return phWithin(s, x)
}

// ParsePHKeys reads a pH as typed at the bath, where the point may be left
// out: 982 is 9.82 and 1024 is 10.24. What could be read in two ways, such as
// 101, or in none, such as 98, is asked about. Its error is an [*Error].
func ParsePHKeys(s string) (PH, error) {
	keys := strings.TrimSpace(s)
	if !allDigits(keys) {
		return ParsePH(s)
	}
	hundredths, err := strconv.Atoi(keys)
	switch {
	case err != nil || len(keys) > 4:
		return 0, &Error{Read: quote(s) + " has too many digits", Allowed: keysAllowed, Do: "read the meter again"}
	case len(keys) < 3 || "100" <= keys && keys <= "149" && len(keys) == 3:
		return 0, pointError(s, keys)
	}
	return phWithin(s, float64(hundredths)/100)
}

// phWithin returns x as a pH, or says that none is like it.
func phWithin(s string, x float64) (PH, error) {
	if x < 0 || x > 14 {
		return 0, &Error{
			Read:    quote(s) + " is not a pH",
			Allowed: "pH runs from 0 to 14",
			Do:      "read the meter again",
		}
	}
	return PH(x), nil
}

const keysAllowed = "without its point a pH is three digits up to 9.99 and four from 10.00"

// pointError asks where the point belongs in keys, offering each place that
// makes a pH.
func pointError(s, keys string) *Error {
	var offers []string
	for i := 1; i <= len(keys); i++ {
		if ph, err := ParsePH(keys[:i] + "." + keys[i:]); err == nil {
			offers = append(offers, ph.String())
		}
	}
	return &Error{
		Read:    quote(s) + " needs its point",
		Allowed: keysAllowed,
		Do:      "write " + strings.Join(offers, " or "),
	}
}
