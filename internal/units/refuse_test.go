package units_test

import (
	"errors"
	"strings"
	"testing"

	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
)

// TestRefusals holds every sentence: what was read, what is allowed, what to do.
func TestRefusals(t *testing.T) {
	const (
		volume = `a volume is in gal, qt, pt, fl oz, L or mL`
		temp   = `a temperature is in °F, °C or K`
		span   = `a time is in min, s, h or d`
		keys   = `without its point a pH is three digits up to 9.99 and four from 10.00`
	)
	for _, tt := range []struct {
		name string
		read func(string) error
		text string
		want string
	}{
		{"empty", as[units.Volume], " ", `nothing was written; a volume is wanted: write it like 64gal or 242L`},
		{"no unit", as[units.Volume], "60", `"60" has no unit; ` + volume + `: write 60gal or 60L`},
		{"no unit of heat", as[units.Temperature], "126", `"126" has no unit; ` + temp + `: write 126°F or 126°C`},
		{"degrees of what", as[units.Temperature], "126°", `"126°" is not a temperature; ` + temp + `: write it like 122F or 50C`},
		{"no unit of time", as[units.Span], "30", `"30" has no unit; ` + span + `: write 30min or 30s`},
		{"no unit of power", as[units.Power], "6", `"6" has no unit; a power is in kW or W: write 6kW or 6W`},
		{"a unit of nothing", as[units.Volume], "60 furlongs", `"60 furlongs" is not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"a unit we do not use", as[units.Volume], "60 psi", `"60 psi" is not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"a volume for a temperature", as[units.Temperature], "60 gal", `"60 gal" is a volume, not a temperature; ` + temp + `: write it like 122F or 50C`},
		{"a temperature for a volume", as[units.Volume], "126F", `"126F" is a temperature, not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"ounces of weight for a volume", as[units.Volume], "4 oz", `"4 oz" is a mass, not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"metres or minutes for a volume", as[units.Volume], "5 m", `"5 m" is not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"a word", as[units.Volume], "sixty gal", `"sixty gal" does not begin with a number; ` + volume + `: write it like 64gal or 242L`},
		{"NaN", as[units.Volume], "NaN gal", `"NaN gal" does not begin with a number; ` + volume + `: write it like 64gal or 242L`},
		{"infinity", as[units.Volume], "Inf", `"Inf" does not begin with a number; ` + volume + `: write it like 64gal or 242L`},
		{"hexadecimal", as[units.Volume], "0x1p4 gal", `"0x1p4 gal" is not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"underscore", as[units.Volume], "1_000gal", `"1_000gal" is not a volume; ` + volume + `: write it like 64gal or 242L`},
		{"spaced thousands", as[units.Volume], "1 000 gal", `"1 000 gal" has two numbers; ` + volume + `: write it like 64gal or 242L`},
		{"overflow", as[units.Volume], "1e309 gal", `"1e309 gal" is too large; numbers go up to 999999999: check the number`},
		{"overflow of a plain number", as[float64], "-1e309", `"-1e309" is too large; numbers go up to 999999999: check the number`},
		{"overflow in a part", as[units.Span], "1h1000000000", `"1h1000000000" is too large; numbers go up to 999999999: check the number`},
		{"negative volume", as[units.Volume], "-5 gal", `"-5 gal" is negative; a volume is 0 or more: write it without the minus`},
		{"negative mass", as[units.Mass], "-5 kg", `"-5 kg" is negative; a mass is 0 or more: write it without the minus`},
		{"negative length", as[units.Length], "-5 in", `"-5 in" is negative; a length is 0 or more: write it without the minus`},
		{"negative area", as[units.Area], "-5 m2", `"-5 m2" is negative; an area is 0 or more: write it without the minus`},
		{"negative power", as[units.Power], "-5 kW", `"-5 kW" is negative; a power is 0 or more: write it without the minus`},
		{"negative flow", as[units.Flow], "-5 gpm", `"-5 gpm" is negative; a flow is 0 or more: write it without the minus`},
		{"negative time", as[units.Span], "-5 min", `"-5 min" is negative; a time is 0 or more: write it without the minus`},
		{"hardly negative", as[units.Volume], "-1e-300 L", `"-1e-300 L" is negative; a volume is 0 or more: write it without the minus`},
		{"colder than cold in °F", as[units.Temperature], "-459.68F", `"-459.68F" is colder than absolute zero; nothing is below -459.67 °F or -273.15 °C: check the number`},
		{"colder than cold in K", as[units.Temperature], "-1K", `"-1K" is colder than absolute zero; nothing is below -459.67 °F or -273.15 °C: check the number`},
		{"comma", as[float64], "2,5", `"2,5" has a comma: write 2.5 with a point, or 25`},
		{"comma with a unit", as[units.Volume], "2,5 gal", `"2,5 gal" has a comma: write 2.5 gal with a point, or 25 gal`},
		{"thousands", as[units.Volume], "1,000gal", `"1,000gal" has a comma: write 1.000gal with a point, or 1000gal`},
		{"thousands and a point", as[units.Volume], "1,000.5gal", `"1,000.5gal" has a comma: write the number with a point or without`},
		{"commas", as[units.Volume], "1,000,000 gal", `"1,000,000 gal" has a comma: write the number with a point or without`},
		{"a comma and no digit", as[units.Volume], "2, gal", `"2, gal" has a comma: write the number with a point or without`},
		{"comma in a time", as[units.Span], "1,5h", `"1,5h" has a comma: write 1.5h with a point, or 15h`},
		{"comma in a pH", as[units.PH], "9,82", `"9,82" has a comma: write 9.82 with a point, or 982`},
		{"timer or clock", as[units.Span], "5:00", `"5:00" reads as minutes or as hours; ` + span + `: write 5min or 5s, or 5h`},
		{"timer with seconds", as[units.Span], "4:30", `"4:30" reads as minutes or as hours; ` + span + `: write 4min30s or 4h30min`},
		{"clock with a unit", as[units.Span], "4:30min", `"4:30min" reads as minutes or as hours; ` + span + `: write it like 30min or 1h30`},
		{"small before large", as[units.Span], "30min 1h", `"30min 1h" is out of order; a time goes from days to seconds, each once: write it like 30min or 1h30`},
		{"twice", as[units.Span], "1h 2h", `"1h 2h" is out of order; a time goes from days to seconds, each once: write it like 30min or 1h30`},
		{"bare after minutes", as[units.Span], "4min30", `"4min30" has no unit; ` + span + `: write 30min or 30s`},
		{"bare fraction after hours", as[units.Span], "1h 30.5", `"1h 30.5" has no unit; ` + span + `: write 30.5min or 30.5s`},
		{"minus inside", as[units.Span], "1h-30min", `"1h-30min" is not a time; ` + span + `: write it like 30min or 1h30`},
		{"a volume for a time", as[units.Span], "2 gal", `"2 gal" is a volume, not a time; ` + span + `: write it like 30min or 1h30`},
		{"unit on a plain number", as[float64], "5 gal", `"5 gal" has more than a number; a number has no unit: write 5`},
		{"no plain number", as[float64], "five", `"five" is not a number; a number is wanted: write it like 12.5`},
		{"nothing for a number", as[float64], "", `nothing was written; a number is wanted: write it like 12.5`},
		{"half a basket", as[int], "2.5", `"2.5" is not a whole number; only whole ones count here: write it like 12`},
		{"nothing for a count", as[int], "", `nothing was written; a whole number is wanted: write it like 12`},
		{"pH too high", as[units.PH], "14.01", `"14.01" is not a pH; pH runs from 0 to 14: read the meter again`},
		{"pH negative", as[units.PH], "-0.5", `"-0.5" is not a pH; pH runs from 0 to 14: read the meter again`},
		{"pH with a temperature", as[units.PH], "10.1C", `"10.1C" has more than a number; a pH has no unit: write 10.1`},
		{"nothing for a pH", as[units.PH], "", `nothing was written; a pH is wanted: write it like 9.82`},
		{"pH keys 1.01 or 10.1", phKeys, "101", `"101" needs its point; ` + keys + `: write 1.01 or 10.10`},
		{"pH keys 1.40 or 14.0", phKeys, "140", `"140" needs its point; ` + keys + `: write 1.40 or 14.00`},
		{"pH keys 1.49", phKeys, "149", `"149" needs its point; ` + keys + `: write 1.49`},
		{"pH keys 98", phKeys, "98", `"98" needs its point; ` + keys + `: write 9.80`},
		{"pH keys 10", phKeys, "10", `"10" needs its point; ` + keys + `: write 1.00 or 10.00`},
		{"pH keys 9", phKeys, "9", `"9" needs its point; ` + keys + `: write 9.00`},
		{"pH keys past the range", phKeys, "9820", `"9820" is not a pH; pH runs from 0 to 14: read the meter again`},
		{"pH keys just past it", phKeys, "1401", `"1401" is not a pH; pH runs from 0 to 14: read the meter again`},
		{"pH keys too many", phKeys, "10100", `"10100" has too many digits; ` + keys + `: read the meter again`},
		{"pH keys with a comma", phKeys, "9,82", `"9,82" has a comma: write 9.82 with a point, or 982`},
		{"pH keys empty", phKeys, "", `nothing was written; a pH is wanted: write it like 9.82`},
		{"a third system", system, "metric", `"metric" is not a system of units; there are two, us and si: write us for gallons and °F, or si for litres and °C`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.read(tt.text)
			if err == nil {
				t.Fatalf("%q was taken, want: %s", tt.text, tt.want)
			}
			if diff := cmp.Diff(tt.want, err.Error()); diff != "" {
				t.Errorf("%q: (-want +got)\n%s", tt.text, diff)
			}
		})
	}
}

// as reads text strictly as a Q and returns only the error.
func as[Q units.Quantity | float64 | int](text string) error {
	var q Q
	return units.Scan(&q, text)
}

func phKeys(text string) error {
	_, err := units.ParsePHKeys(text)
	return err
}

func system(text string) error {
	_, err := units.ParseSystem(text)
	return err
}

func TestRefusalHasParts(t *testing.T) {
	var got *units.Error
	if err := as[units.Volume]("60 psi"); !errors.As(err, &got) {
		t.Fatalf("got %T, want *units.Error", err)
	}
	want := &units.Error{
		Read:    `"60 psi" is not a volume`,
		Allowed: `a volume is in gal, qt, pt, fl oz, L or mL`,
		Do:      `write it like 64gal or 242L`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// TestRefusalIsSafeToPrint: what was typed cannot drive the terminal or flood it.
func TestRefusalIsSafeToPrint(t *testing.T) {
	for name, text := range map[string]string{
		"escape":             "60\x1b[2Jgal",
		"escape and a comma": "2,5\x1b[31m gal",
		"newline":            "60\nrm",
		"right to left":      "60 \u202elag",
		"not UTF-8":          "60 \xff\xfe",
		"long":               strings.Repeat("9", 5000) + "gal",
		"long unit":          "60 " + strings.Repeat("gal", 5000),
		"long with a comma":  "2," + strings.Repeat("5", 5000),
		"long clock":         "5:" + strings.Repeat("0", 5000),
		"long bare":          "0." + strings.Repeat("5", 5000),
	} {
		t.Run(name, func(t *testing.T) {
			for what, err := range map[string]error{
				"volume": as[units.Volume](text), "span": as[units.Span](text), "pH": as[units.PH](text),
			} {
				if err == nil {
					if name == "long bare" && what == "pH" {
						continue // 0.555… is a pH
					}
					t.Errorf("%s: taken, want an error", what)
					continue
				}
				safe(t, err.Error())
			}
		})
	}
}
