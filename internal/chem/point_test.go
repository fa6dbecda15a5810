package chem

import (
	"strings"
	"testing"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

func TestParsePoint(t *testing.T) {
	for _, text := range []string{
		"carbonate@25C=-175mV",
		"carbonate@25 °C=-175mV",
		"carbonate@77F=-175.0 mV",
		" Carbonate @ 25C = -175 ",
		"10.01@298.15K=-0.175V",
	} {
		p, err := ParsePoint(text)
		if err != nil || p.Buffer.Name != "carbonate" || hundredths(float64(p.At)) != 25 || p.MV != -175 {
			t.Errorf("%q: got %s, %v; want carbonate at 25 °C, -175 mV", text, p, err)
		}
	}
}

func TestParseCheck(t *testing.T) {
	for _, text := range []string{"carbonate@25C=9.98", "10.01@77F=998", " carbonate @ 25 °C = 9.980 "} {
		c, err := ParseCheck(text)
		if err != nil || c.Buffer.Name != "carbonate" || c.At != 25 || c.Read != 9.98 {
			t.Errorf("%q: got %s, %v; want carbonate at 25 °C, pH 9.98", text, c, err)
		}
	}
}

func TestParseRefusals(t *testing.T) {
	point := func(s string) error { _, err := ParsePoint(s); return err }
	check := func(s string) error { _, err := ParseCheck(s); return err }
	tests := []struct {
		name  string
		parse func(string) error
		text  string
		want  string
	}{
		{"nothing", point, " ", `nothing was written: write it like carbonate@25C=-175mV`},
		{"no temperature", point, "carbonate=-175mV",
			`"carbonate=-175mV" has no @ between the buffer and how warm it was: write it like carbonate@25C=-175mV`},
		{"no value", point, "carbonate@25C",
			`"carbonate@25C" has no = before the millivolts: write it like carbonate@25C=-175mV`},
		{"nothing after the sign", point, "carbonate@25C=",
			`"carbonate@25C=" has nothing after the =: give the millivolts, as in carbonate@25C=-175mV`},
		{"bare temperature", point, "carbonate@25=-175mV",
			`"25" has no unit; a temperature is in °F, °C or K: write 25°F or 25°C, as in carbonate@25C=-175mV`},
		{"two values", point, "carbonate@25C=-175mV=2",
			`"-175mV=2" is not a potential; a potential is in mV or V: write it like -175mV, as in carbonate@25C=-175mV`},
		{"no such buffer", point, "lime@25C=-175mV",
			`"lime" is no buffer we know: write phthalate (4.01), phosphate (6.86), 7.00, borax (9.18) or carbonate (10.01), as in carbonate@25C=-175mV`},
		{"a pH for millivolts", point, "carbonate@25C=9.98",
			`"9.98" looks like a pH: give the millivolts with their unit, as in carbonate@25C=-175mV`},
		{"millivolts for a pH", check, "carbonate@25C=-175mV",
			`"-175mV" is millivolts, not a pH: write what the meter read, as in carbonate@25C=9.98`},
		{"no such pH", check, "carbonate@25C=99.8",
			`"99.8" is not a pH; pH runs from 0 to 14: read the meter again, as in carbonate@25C=9.98`},
		{"no pH", check, "carbonate@25C",
			`"carbonate@25C" has no = before the pH that the meter read: write it like carbonate@25C=9.98`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.parse(tt.text); err == nil || err.Error() != tt.want {
				t.Errorf("%q:\n got %v\nwant %s", tt.text, err, tt.want)
			}
		})
	}
}

// A potential that is near the buffer's pH is taken with its unit.
func TestSevenMillivoltsNearSeven(t *testing.T) {
	if p, err := ParsePoint("7.00@25C=7mV"); err != nil || p.MV != 7 {
		t.Errorf("got %s, %v; want 7 mV", p, err)
	}
	if p, err := ParsePoint("7.00@25C=7"); err == nil {
		t.Errorf("got %s from a bare 7, want a question", p)
	}
}

func TestRefusalsRepeatLittle(t *testing.T) {
	long := strings.Repeat("x\x1b", 5000)
	for _, text := range []string{long, long + "@25C=1mV", "7.00@" + long + "=1mV", "7.00@25C=" + long} {
		for _, err := range []error{onlyError(ParsePoint(text)), onlyError(ParseCheck(text))} {
			if err == nil || len(err.Error()) > 400 || strings.ContainsRune(err.Error(), '\x1b') {
				t.Errorf("%.20q: got %.100q, want a short sentence", text, err)
			}
		}
	}
}

// onlyError keeps the error alone.
func onlyError[T any](_ T, err error) error { return err }

// TestDipsReadBack: what is printed can be typed again and is the same, to the
// last digit.
func TestDipsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(Buffers).Draw(t, "buffer")
		at := units.Temperature(rapid.Float64Range(0, 60).Draw(t, "at"))
		p := Point{b, at, rapid.Float64Range(-600, 600).Draw(t, "mV")}
		if got, err := ParsePoint(p.String()); err != nil || got != p {
			t.Errorf("%s: got %s, %v", p, got, err)
		}
		c := Check{b, at, units.PH(rapid.Float64Range(0, 14).Draw(t, "pH"))}
		if got, err := ParseCheck(c.String()); err != nil || got != c {
			t.Errorf("%s: got %s, %v", c, got, err)
		}
		whole := Check{b, at, units.PH(rapid.IntRange(0, 14).Draw(t, "whole pH"))}
		if got, err := ParseCheck(whole.String()); err != nil || got != whole {
			t.Errorf("%s: got %s, %v", whole, got, err)
		}
	})
}
