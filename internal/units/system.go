package units

import "strings"

// System says which units people see, and in which a bare number counts.
// It changes nothing about what is stored.
type System int

// The two systems. US is the zero value.
const (
	US System = iota // US gallons, °F, pounds, inches
	SI               // litres, °C, kilograms, centimetres
)

// ParseSystem reads "us" or "si" in either case. Its error is an [*Error].
func ParseSystem(s string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "us":
		return US, nil
	case "si":
		return SI, nil
	}
	return US, &Error{
		Read:    quote(s) + " is not a system of units",
		Allowed: "there are two, us and si",
		Do:      "write us for gallons and °F, or si for litres and °C",
	}
}

// String returns "us" or "si", as ParseSystem reads it.
func (sys System) String() string {
	if sys == SI {
		return "si"
	}
	return "us"
}

// MarshalText writes the system as String does.
func (sys System) MarshalText() ([]byte, error) { return []byte(sys.String()), nil }

// UnmarshalText reads what ParseSystem reads.
func (sys *System) UnmarshalText(text []byte) error {
	parsed, err := ParseSystem(string(text))
	if err != nil {
		return err
	}
	*sys = parsed
	return nil
}
