package units

import (
	"fmt"
	"strings"
)

// Scan reads s into dst: a pointer to a [Quantity], a *float64 or an *int.
// A unit is required; pH and plain numbers have none. When s is refused, dst
// keeps its value and the error is an [*Error].
func Scan(dst any, s string) error {
	return scan(dst, s, func(*kind) *unit { return nil })
}

// Scan reads s as the function Scan does, but lets a bare number count in the
// unit that the system shows: gallons or litres, °F or °C, pounds or
// kilograms, inches or centimetres, gpm or L/min; always minutes and kilowatts.
func (sys System) Scan(dst any, s string) error {
	return scan(dst, s, func(k *kind) *unit { return k.face(sys).unit })
}

// Parse reads s strictly as a quantity of type Q: Parse[Volume]("64gal").
// Its error is an [*Error].
func Parse[Q Quantity](s string) (Q, error) {
	var q Q
	err := Scan(&q, s)
	return q, err
}

// scan reads s into dst; bare gives the unit of a bare number of a kind, or nil.
func scan(dst any, s string, bare func(*kind) *unit) error {
	switch dst := dst.(type) {
	case *Volume:
		return read(dst, volumes, s, bare)
	case *Temperature:
		return read(dst, temperatures, s, bare)
	case *Delta:
		return read(dst, deltas, s, bare)
	case *Span:
		return set(dst)(readSpan(s, bare(spans)))
	case *Mass:
		return read(dst, masses, s, bare)
	case *Length:
		return read(dst, lengths, s, bare)
	case *Area:
		return read(dst, areas, s, bare)
	case *Power:
		return read(dst, powers, s, bare)
	case *Flow:
		return read(dst, flows, s, bare)
	case *Potential:
		return read(dst, potentials, s, bare)
	case *PH:
		return set(dst)(ParsePH(s))
	case *float64:
		return set(dst)(scanFloat(s))
	case *int:
		return set(dst)(scanInt(s))
	}
	return fmt.Errorf("read %s: no quantity is kept in a %T", quote(s), dst)
}

// set returns a func that stores what it is given in dst, unless with an error.
func set[Q any](dst *Q) func(Q, error) error {
	return func(q Q, err error) error {
		if err == nil {
			*dst = q
		}
		return err
	}
}

// read reads s as one number and one unit of k.
func read[Q ~float64](dst *Q, k *kind, s string, bare func(*kind) *unit) error {
	x, err := k.read(s, bare(k))
	return set(dst)(Q(x), err)
}

// read returns the value of s in the stored unit of k.
func (k *kind) read(s string, bare *unit) (float64, error) {
	number, name, err := k.split(s)
	if err != nil {
		return 0, err
	}
	u, err := k.unitOf(s, number, name, bare)
	if err != nil {
		return 0, err
	}
	x, err := value(s, number)
	if err != nil {
		return 0, err
	}
	return k.bounded(s, u.stored(x))
}

// split cuts s into its first number and the rest, which names the unit.
func (k *kind) split(s string) (number, rest string, err error) {
	text := strings.TrimSpace(s)
	if text == "" {
		return "", "", &Error{
			Read:    "nothing was written",
			Allowed: k.noun + " is wanted",
			Do:      k.like(),
		}
	}
	if strings.Contains(text, ",") {
		return "", "", commaError(s)
	}
	number, rest = splitNumber(text)
	if number == "" {
		return "", "", &Error{
			Read:    quote(s) + " does not begin with a number",
			Allowed: k.allowed(),
			Do:      k.like(),
		}
	}
	return number, strings.TrimSpace(rest), nil
}

// unitOf finds the unit called name, or says why it is none of k's.
func (k *kind) unitOf(s, number, name string, bare *unit) (*unit, error) {
	if name == "" && bare != nil {
		return bare, nil
	}
	if name == "" {
		return nil, k.noUnit(s, number)
	}
	if u := k.find(name); u != nil {
		return u, nil
	}
	return nil, k.foreign(s, name)
}

// noUnit asks for the unit, offering the two likely ones.
func (k *kind) noUnit(s, number string) *Error {
	a, b := k.faces[US].unit, k.faces[SI].unit
	if a == b {
		a, b = k.units[0], k.units[1]
	}
	number = cut(number)
	return &Error{
		Read:    quote(s) + " has no unit",
		Allowed: k.allowed(),
		Do:      "write " + number + a.name + " or " + number + b.name,
	}
}

// foreign refuses a unit that belongs elsewhere or nowhere.
func (k *kind) foreign(s, name string) *Error {
	read := quote(s) + " is not " + k.noun
	if digits(name) > 0 {
		read = quote(s) + " has two numbers"
	} else if other := kindOf(name); other != nil {
		read = quote(s) + " is " + other.noun + ", not " + k.noun
	}
	return &Error{Read: read, Allowed: k.allowed(), Do: k.like()}
}

// like is the advice to write one as in the example.
func (k *kind) like() string { return "write it like " + k.example }

// bounded refuses what physics forbids, and drops the sign of zero.
func (k *kind) bounded(s string, x float64) (float64, error) {
	switch {
	case x >= k.least:
		return x + 0, nil // -0 becomes 0
	case k == temperatures:
		return 0, &Error{
			Read:    quote(s) + " is colder than absolute zero",
			Allowed: "nothing is below -459.67 °F or -273.15 °C",
			Do:      "check the number",
		}
	}
	return 0, &Error{
		Read:    quote(s) + " is negative",
		Allowed: k.noun + " is 0 or more",
		Do:      "write it without the minus",
	}
}
