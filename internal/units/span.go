package units

import "strings"

// readSpan reads one part or more, from the large unit to the small: 30min,
// 1 h 30 min, 1h30. A bare number counts in minutes after hours, and in the
// unit bare when it stands alone.
func readSpan(s string, bare *unit) (Span, error) {
	if strings.Contains(s, ":") {
		return 0, clockError(s)
	}
	number, rest, err := spans.split(s)
	if err != nil {
		return 0, err
	}
	var total float64
	var last *unit
	for more := true; more; {
		var name, next string
		name, next, more = cutPart(rest)
		u, err := spanUnit(s, number, name, last, bare)
		if err != nil {
			return 0, err
		}
		x, err := value(s, number)
		if err != nil {
			return 0, err
		}
		total += u.stored(x)
		last = u
		number, rest = splitNumber(next)
	}
	x, err := spans.bounded(s, total)
	return Span(x), err
}

// cutPart cuts the name of a unit from rest; more tells whether another number
// follows it, at the start of next.
func cutPart(rest string) (name, next string, more bool) {
	i := strings.IndexAny(rest, "0123456789")
	if i < 0 {
		return strings.TrimSpace(rest), "", false
	}
	return strings.TrimSpace(rest[:i]), rest[i:], true
}

// spanUnit finds the unit of a part that comes after one in the unit last,
// which is nil for the first part.
func spanUnit(s, number, name string, last, bare *unit) (*unit, error) {
	switch {
	case last == nil:
		return spans.unitOf(s, number, name, bare)
	case last == hour && name == "" && digits(number) == len(number):
		return minute, nil
	}
	u, err := spans.unitOf(s, number, name, nil)
	if err == nil && u.size >= last.size {
		return nil, &Error{
			Read:    quote(s) + " is out of order",
			Allowed: "a time goes from days to seconds, each once",
			Do:      spans.like(),
		}
	}
	return u, err
}

// clockError asks about 5:00, which a timer shows for minutes and a clock for
// hours.
func clockError(s string) *Error {
	e := &Error{
		Read:    quote(s) + " reads as minutes or as hours",
		Allowed: spans.allowed(),
		Do:      spans.like(),
	}
	large, small, _ := strings.Cut(strings.TrimSpace(s), ":")
	switch {
	case !allDigits(large) || !allDigits(small) || len(large)+len(small) > 4:
	case strings.Trim(small, "0") == "":
		e.Do = "write " + large + "min or " + large + "s, or " + large + "h"
	default:
		e.Do = "write " + large + "min" + small + "s or " + large + "h" + small + "min"
	}
	return e
}

func allDigits(s string) bool { return s != "" && digits(s) == len(s) }
