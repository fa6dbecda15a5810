package load_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"

	"pgregory.net/rapid"
)

// refusal returns the id of what is refused, "" when it is allowed.
func refusal(t testing.TB, cycle load.Cycle) string {
	t.Helper()
	if cycle.Allowed != (len(cycle.Refusals) == 0) {
		t.Fatalf("allowed is %v with refusals %v", cycle.Allowed, cycle.Refusals)
	}
	if cycle.Allowed {
		return ""
	}
	return cycle.Refusals[0].ID
}

func TestTemperatureGate(t *testing.T) {
	f := units.Fahrenheit
	tests := []struct {
		name string
		item string
		in   load.Conditions
		want string
	}{
		// 29 CFR 1910.134 App. B-2: 43 °C (110 °F) at most.
		{"mask at 43 °C", "mask", load.Conditions{Bath: 43}, ""},
		{"mask at 110 °F", "mask", load.Conditions{Bath: f(110)}, ""},
		{"mask at 111 °F", "mask", load.Conditions{Bath: f(111)}, load.TooHot},
		{"mask at the set point", "mask", load.Conditions{Bath: f(122)}, load.TooHot},
		{"mask while the heater passes 110 °F", "mask", load.Conditions{Bath: f(109), Peak: f(112)}, load.TooHot},
		{"mask while the heater stays below", "mask", load.Conditions{Bath: f(100), Peak: f(102)}, ""},
		{"a peak below the bath counts for nothing", "mask", load.Conditions{Bath: f(112), Peak: f(100)}, load.TooHot},
		// CGA P-1, by a summary (second-hand): 125 °F at most; 54 °C is 129.2 °F.
		{"cylinder at the default set point", "cylinder", load.Conditions{Bath: f(122)}, ""},
		{"cylinder at 124 °F", "cylinder", load.Conditions{Bath: f(124)}, ""},
		{"cylinder at 54 °C", "cylinder", load.Conditions{Bath: 54}, load.TooHot},
		// The working band, 120 to 130 °F: common practice, no source.
		{"tool at 130 °F", "tool", load.Conditions{Bath: f(130)}, ""},
		{"tool at 131 °F", "tool", load.Conditions{Bath: f(131)}, load.OverBand},
		{"helmet shell at 131 °F, below its own limit", "helmet", load.Conditions{Bath: f(131)}, load.OverBand},
		{"mask at 95 °F", "mask", load.Conditions{Bath: f(95)}, ""},
		{"mask at 94 °F", "mask", load.Conditions{Bath: f(94)}, load.TooCool},
		{"not measured", "tool", load.Conditions{Bath: unknown}, load.NotMeasured},
		{"nothing said about the bath", "tool", load.Conditions{}, load.TooCool},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := refusal(t, pick(t, tt.item, load.Normal, tt.in)); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestRefusalSentences(t *testing.T) {
	f := units.Fahrenheit
	tests := []struct {
		name string
		item string
		in   load.Conditions
		want string
	}{
		{"mask at 118 °F", "mask", load.Conditions{Bath: f(118)},
			"Not in the bath: the bath is at 118 °F, the limit for masks is 110 F (29 CFR 1910.134 App. B-2). " +
				"Do this: wash by hand in water of 110 °F or cooler; next time masks go in first, light soil, while the bath warms from 95 °F to 110 °F. " +
				"Wake the gear officer if the maker's paper allows more, never above 130 F."},
		{"mask in °C", "mask", load.Conditions{Bath: 48, Units: units.SI},
			"Not in the bath: the bath is at 48 °C, the limit for masks is 110 F or 43.3 °C (29 CFR 1910.134 App. B-2). " +
				"Do this: wash by hand in water of 43 °C or cooler; next time masks go in first, light soil, while the bath warms from 35 °C to 43 °C. " +
				"Wake the gear officer if the maker's paper allows more, never above 130 F or 54.4 °C."},
		{"mask a shade too hot", "mask", load.Conditions{Bath: f(110.4)},
			"Not in the bath: the bath is at 110.4 °F, the limit for masks is 110 F (29 CFR 1910.134 App. B-2)."},
		{"mask less than a shade too hot", "mask", load.Conditions{Bath: f(110.02)},
			"Not in the bath: the bath is too close to the limit for masks, 110 F (29 CFR 1910.134 App. B-2)."},
		{"mask, the heater too eager", "mask", load.Conditions{Bath: f(109), Peak: f(113)},
			"Not in the bath: the bath will reach 113 °F, the limit for masks is 110 F (29 CFR 1910.134 App. B-2). " +
				"Do this: heater off until this wash is done."},
		{"cylinder within the margin", "cylinder", load.Conditions{Bath: f(125)},
			"Not in the bath: the bath is too close to the limit for cylinders, 125 F (CGA P-1, by a summary). " +
				"Do this: let the bath cool to 124 °F."},
		{"over the band", "tool", load.Conditions{Bath: f(135)},
			"Not in the bath: the bath is at 135 °F, the limit for this bath is 130 F (top of the working band, common practice, no source). " +
				"Do this: heater off, gear out, let the bath cool. Wake the gear officer now."},
		{"too cool", "mask", load.Conditions{Bath: f(80)},
			"Not in the bath: the bath is at 80 °F, too cool to wash in. Do this: heat it to 95 °F at least. " +
				"Wake the gear officer if it does not warm."},
		{"not measured", "mask", load.Conditions{Bath: unknown},
			"Not in the bath: the bath temperature is not known. Do this: measure the bath first. " +
				"Wake the gear officer if there is no thermometer."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cycle := pick(t, tt.item, load.Normal, tt.in)
			if len(cycle.Refusals) != 1 {
				t.Fatalf("got %v, want one refusal", cycle.Refusals)
			}
			got := cycle.Refusals[0].String()
			if !strings.HasPrefix(got, tt.want) {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

var number = regexp.MustCompile(`\d+(\.\d+)?`)

// No refusal sets two equal numbers against each other, and none says that a
// lower one is too much.
func TestRefusalsNeverShowTwoEqualNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Float64Range(96, 129).Draw(t, "limit, °F")
		item := catalog.Item{
			Plural:  "things",
			Minutes: catalog.Minutes{Light: 1, Normal: 1, Heavy: 1, Longest: 1},
			Limit:   catalog.Limit{At: units.Fahrenheit(float64(int(limit))), Source: "a source"},
		}
		item.Limit.Printed = units.US.Temp(item.Limit.At)
		in := load.Conditions{
			Bath:  units.Fahrenheit(float64(int(limit)) + rapid.Float64Range(-1, 2).Draw(t, "bath above it, °F")),
			Set:   50,
			Units: rapid.SampledFrom([]units.System{units.US, units.SI}).Draw(t, "units"),
		}
		cycle, err := load.Pick(item, load.Normal, in)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range cycle.Refusals {
			// In °C the bath is judged against the converted limit, the last number.
			numbers := number.FindAllString(r.Wrong, -1)
			if len(numbers) < 2 {
				continue // too close: only the limit is shown
			}
			bath, _ := strconv.ParseFloat(numbers[0], 64)
			allowed, _ := strconv.ParseFloat(numbers[len(numbers)-1], 64)
			if !(bath > allowed) {
				t.Errorf("%v is not above %v: %s", bath, allowed, r.Wrong)
			}
		}
	})
}

// What nobody measured is not told as measured.
func TestTheSetPointIsNotToldAsATemperature(t *testing.T) {
	mask := catalog.Item{Plural: "masks", Limit: catalog.Limit{At: units.Fahrenheit(110), Printed: "110 F", Source: "29 CFR 1910.134 App. B-2"}}
	in := load.Conditions{Bath: units.Fahrenheit(122), Set: units.Fahrenheit(122), Units: units.US}
	for guessed, want := range map[bool]string{false: "the bath is at 122 °F", true: "the bath is set to 122 °F"} {
		in.Guessed = guessed
		c, err := load.Pick(mask, load.Light, in)
		if err != nil || len(c.Refusals) == 0 || !strings.HasPrefix(c.Refusals[0].Wrong, want) {
			t.Errorf("guessed %v: got %v (%v), want %q", guessed, c.Refusals, err, want)
		}
	}
}
