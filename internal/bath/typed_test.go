package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestTyped(t *testing.T) {
	for _, c := range []struct {
		name   string
		kind   bath.Kind
		fields map[string]string
		say    string // "" where it can be typed
	}{
		{"nothing filled in", "reading", nil, ""},
		{"left to be asked", "degas", map[string]string{"time": ""}, ""},
		{"a part of it", "degas", map[string]string{"time": "15min"}, ""},
		{"no such kind", "rinse", nil, `"rinse" is not a kind of entry here: use one of reading, temp`},
		{"no such field", "degas", map[string]string{"minutes": "15"}, `a degas has no "minutes": its fields are time`},
		{"no such word", "drain", map[string]string{"route": "river"}, `where to: "river" is not one of sewer, hauler, hold`},
		{"no unit", "degas", map[string]string{"time": "15"}, "how long: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := bath.Typed(c.kind, c.fields, units.Scan)
			if (err == nil) != (c.say == "") || err != nil && !strings.HasPrefix(err.Error(), c.say) {
				t.Errorf("got %v, want %s", err, c.say)
			}
		})
	}
}
