package bath_test

import (
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Sources: 29 CFR 1910.134 App. B-2 and CGA P-1, by a summary, for the limits;
// a ruling of the trade: the gate is on the higher of what is measured and
// where the heater will take it, and a maker's paper on file may allow more.
func TestGateLimit(t *testing.T) {
	at := func(load bath.Load, f float64) *bath.Start {
		return begins(load, func(s *bath.Start) { s.BathC = units.Fahrenheit(f) })
	}
	off := &bath.Temp{BathC: 43, Heat: p(false)}
	set := func(f float64) *bath.Temp { return &bath.Temp{BathC: 50, SetC: p(units.Fahrenheit(f)), Heat: p(true)} }
	ten := begins(cylinderLoad(2), func(s *bath.Start) { s.BathC, s.Time = 50, units.Minutes(10) })
	const wake = " Wake the gear officer if the maker's paper allows more, never above 130 °F."
	const byHand = "Do this: wash it by hand in water of 110 °F or cooler; next time it goes in first, light soil, while the bath warms from 95 °F to 110 °F."
	checkGate(t, "too-hot", []gateCase{
		{name: "masks at 126 °F", start: at(maskLoad(4), 126),
			say: "Not in the bath: the bath is at 126 °F, and the limit for Mask is 110 F, 43 °C (29 CFR 1910.134 App. B-2). " + byHand + wake},
		{name: "masks just above", on: with(off), start: at(maskLoad(4), 110.4),
			say: "Not in the bath: the bath is at 110.4 °F, and the limit for Mask is 110 F, 43 °C (29 CFR 1910.134 App. B-2). " + byHand + wake},
		{name: "masks a hair above", on: with(off), start: at(maskLoad(4), 110.001),
			say: "Not in the bath: the bath is too close to the limit for Mask, 110 F, 43 °C (29 CFR 1910.134 App. B-2). " + byHand + wake},
		{name: "masks at 110 °F, heater off", on: with(off), start: at(maskLoad(4), 110)},
		{name: "masks at 108 °F, heater on", start: at(maskLoad(4), 108), // 4 min at 0.38 °C a minute are 2.75 °F
			say: "Not in the bath: the heater takes the bath during the wash to 111 °F, and the limit for Mask is 110 F, 43 °C (29 CFR 1910.134 App. B-2). Do this: set the heater to 110 °F or lower, or switch it off for this wash, and log that." + wake},
		{name: "masks at 107 °F, heater on", start: at(maskLoad(4), 107)},
		{name: "masks at 107 °F, in less water", on: with(&bath.Water{Cause: bath.CauseEvaporation, BelowL: p(units.Gallons(11))}), start: at(maskLoad(4), 107),
			say: "Not in the bath: the heater takes the bath during the wash to 110.4 °F, and the limit for Mask is 110 F, 43 °C (29 CFR 1910.134 App. B-2). Do this: set the heater to 110 °F or lower, or switch it off for this wash, and log that." + wake},
		{name: "masks by a paper for 54 °C", on: with(onFile("mask", 54)), start: at(maskLoad(4), 126)},
		{name: "masks above their paper", on: with(onFile("mask", 51)), start: at(maskLoad(4), 126),
			say: "Not in the bath: the bath is at 126 °F, and the limit for Mask is 124 °F (the maker's paper: cleaning guide, rev C). Do this: let the bath cool to 123 °F." + wake},
		{name: "masks by a paper for less", on: with(onFile("mask", 38), off), start: at(maskLoad(4), 108),
			say: "Not in the bath: the bath is at 108 °F, and the limit for Mask is 100 °F (the maker's paper: cleaning guide, rev C). Do this: wash it by hand in water of 100 °F or cooler; next time it goes in first, light soil, while the bath warms from 95 °F to 100 °F." + wake},
		{name: "cylinders at 52 °C", start: at(cylinderLoad(2), 125.6),
			say: "Not in the bath: the bath is at 126 °F, and the limit for Cylinder is 125 F, 51 °C (CGA P-1, by a summary). Do this: let the bath cool to 124 °F." + wake},
		{name: "cylinders inside the margin", start: at(cylinderLoad(2), 124.9),
			say: "Not in the bath: the bath is too close to the limit for Cylinder, 125 F, 51 °C (CGA P-1, by a summary). Do this: let the bath cool to 124 °F." + wake},
		{name: "cylinders at 122 °F, set to 130 °F", on: with(set(130)), start: ten,
			say: "Not in the bath: the heater takes the bath during the wash to 129 °F, and the limit for Cylinder is 125 F, 51 °C (CGA P-1, by a summary). Do this: set the heater to 124 °F or lower, or switch it off for this wash, and log that." + wake},
		{name: "cylinders at 122 °F, set to 124 °F", on: with(set(130), set(124)), start: ten},
		{name: "cylinders at 122 °F, heater off", on: with(set(130), &bath.Temp{BathC: 50, Heat: p(false)}), start: ten},
		{name: "the heater is on again", on: with(set(130), &bath.Temp{BathC: 50, Heat: p(false)}, &bath.Temp{BathC: 50}, set(130)), start: ten,
			say: "Not in the bath: the heater takes the bath during the wash to 129 °F, and the limit for Cylinder is 125 F, 51 °C (CGA P-1, by a summary). Do this: set the heater to 124 °F or lower, or switch it off for this wash, and log that." + wake},
		{name: "the lowest limit rules", start: begins(cylinderLoad(2), func(s *bath.Start) {
			s.Items, s.BathC = append(s.Items, maskLoad(4)), units.Fahrenheit(126)
		}), say: "Not in the bath: the bath is at 126 °F, and the limit for Mask is 110 F, 43 °C (29 CFR 1910.134 App. B-2). " + byHand + wake},
	})
}

// In °C the same limits read the same way.
func TestGateLimitInCelsius(t *testing.T) {
	b := with(&bath.Setting{Units: "si"})(t).wait(time.Minute)
	err := bath.Check(b.state, b.draft(keyHolder, b.now, begins(cylinderLoad(2), func(s *bath.Start) { s.BathC = 52 })), b.now)
	checkSentence(t, err, "too-hot", "Not in the bath: the bath is at 52 °C, and the limit for Cylinder is 125 F, 51 °C (CGA P-1, by a summary). Do this: let the bath cool to 51 °C. Wake the gear officer if the maker's paper allows more, never above 130 °F.")
}

// Source: ruling of the trade: 6 kW warms 60 gal by 0.38 °C a minute. The rest
// follows from the heat of a litre of water at 50 °C, 4.13 kJ/K (IAPWS-97), and
// from the set point, beyond which a heater does not go.
func TestPeak(t *testing.T) {
	gal := units.Gallons(60)
	for _, tt := range []struct {
		name      string
		from, set units.Temperature
		volume    units.Volume
		time      units.Span
		want      float64
	}{
		{"a minute", 40, 60, gal, 60, 40.38},
		{"half the water", 40, 60, gal / 2, 60, 40.76},
		{"up to the set point", 49, 50, gal, 600, 50},
		{"at the set point", 50, 50, gal, 600, 50},
		{"above it", 52, 50, gal, 600, 52},
		{"of an unknown volume", 40, 60, 0, 600, 40},
	} {
		near(t, tt.name, float64(bath.Peak(tt.from, tt.set, 6000, tt.volume, tt.time)), tt.want, 0.006)
	}
}

// number is a number with its unit, as it stands in a sentence.
var number = regexp.MustCompile(`[0-9.]+ ?(°?F|°C|gal|L|lb|kg|min( [0-9]+ s)?)\b`)

// TestRefusalsNeverShowTwoEqualNumbers, however close to a limit, and always
// say what to do and whom to wake.
func TestRefusalsNeverShowTwoEqualNumbers(t *testing.T) {
	books := map[string]*book{}
	for _, sys := range []string{"us", "si"} {
		b := with(&bath.Setting{Units: sys}, &bath.Tank{FreeboardM: units.Inches(4)}, &bath.Temp{BathC: 40, Heat: p(false)})(t)
		books[sys] = b.wait(time.Minute)
	}
	rapid.Check(t, func(rt *rapid.T) {
		b := books[rapid.SampledFrom([]string{"us", "si"}).Draw(rt, "units")]
		hair := func(x float64) float64 {
			return x + rapid.SampledFrom([]float64{-1, 1}).Draw(rt, "side")*math.Pow(10, rapid.Float64Range(-6, 1).Draw(rt, "hair"))
		}
		s := begins(maskLoad(4), func(s *bath.Start) {
			s.BathC = units.Temperature(hair(rapid.SampledFrom([]float64{35, 43.3333, 51.5, 51.6667, 54.4444}).Draw(rt, "at")))
			s.Time = units.Span(math.Abs(hair(300)))
			s.Items = []bath.Load{rapid.SampledFrom([]bath.Load{maskLoad(4), cylinderLoad(2), toolLoad(1)}).Draw(rt, "load"),
				{Item: "lamp", Name: "Lamp", Count: 1, MassKg: units.Mass(math.Abs(hair(110))), DisplacesL: units.Volume(math.Abs(hair(30)))}}
		})
		gates, err := bath.Gates(b.state, b.draft(officer, b.now, s), b.now)
		if err != nil {
			rt.Fatal(err)
		}
		for _, g := range gates {
			seen := map[string]bool{}
			for _, n := range number.FindAllString(g.Wrong, -1) {
				n = strings.ReplaceAll(n, "°", "")
				if seen[n] {
					rt.Fatalf("%s twice: %s", n, g.Wrong)
				}
				seen[n] = true
			}
			if g.Do == "" || g.Wake == "" {
				rt.Fatalf("no way out: %+v", g)
			}
		}
	})
}
