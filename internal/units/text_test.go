package units_test

import (
	"math"
	"testing"
	"time"

	"bathside/internal/units"
)

var nan = math.NaN()

// TestText holds the rounding: the steps are common practice, no source.
func TestText(t *testing.T) {
	for _, tt := range []struct {
		name   string
		q      any
		us, si string
	}{
		{"volume", units.Gallons(2), "2.0 gal", "7.6 L"},
		{"no volume", units.Volume(-0.001), "0.0 gal", "0.0 L"},
		{"volume not known", units.Volume(nan), "not known", "not known"},
		{"volume beyond all", units.Volume(math.Inf(-1)), "not known", "not known"},
		{"set point", units.Temperature(50), "122 °F", "50 °C"},
		{"half degrees", units.Temperature(50.4), "123 °F", "50.5 °C"},
		{"just below ice", units.Temperature(-0.2), "32 °F", "0 °C"},
		{"just below 0 °F", units.Fahrenheit(-0.4), "0 °F", "-18 °C"},
		{"temperature not known", units.Temperature(nan), "not known", "not known"},
		{"difference", units.Delta(3), "5.4 °F", "3 °C"},
		{"difference downwards", units.FahrenheitDegrees(-6), "-6 °F", "-3.3 °C"},
		{"no difference", units.Delta(-0.01), "0 °F", "0 °C"},
		{"mass", units.Mass(12.5), "27.6 lb", "12.5 kg"},
		{"length", units.Inches(16), "16 in", "40.6 cm"},
		{"area", units.Area(0.5), "5.4 ft²", "0.50 m²"},
		{"heater", units.Kilowatts(6), "6 kW", "6 kW"},
		{"loss", units.Power(350.4), "350 W", "350 W"},
		{"just under a kilowatt", units.Power(999.7), "1 kW", "1 kW"},
		{"power not known", units.Power(nan), "not known", "not known"},
		{"pump", units.GallonsPerMinute(8), "8.0 gpm", "30.3 L/min"},
		{"pH", units.PH(10.1), "10.10", "10.10"},
		{"pH not known", units.PH(nan), "not known", "not known"},
		{"number", 2.5, "2.5", "2.5"},
		{"number not known", nan, "not known", "not known"},
		{"count", 3, "3", "3"},
		{"duration", 90 * time.Minute, "1 h 30 min", "1 h 30 min"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			same(t, "us", units.US.Text(tt.q), tt.us)
			same(t, "si", units.SI.Text(tt.q), tt.si)
		})
	}
}

func TestSpanText(t *testing.T) {
	for _, tt := range []struct {
		span        units.Span
		want, about string
	}{
		{0, "0 s", "no time"},
		{0.4, "0 s", "under 1 min"},
		{20, "20 s", "under 1 min"},
		{59.6, "1 min", "about 1 min"},
		{90, "1 min 30 s", "about 2 min"},
		{270, "4 min 30 s", "about 5 min"},
		{1800, "30 min", "about 30 min"},
		{3599.7, "1 h", "about 1 h"},
		{5400, "1 h 30 min", "about 1 h 30 min"},
		{5429, "1 h 30 min", "about 1 h 30 min"},
		{5160, "1 h 26 min", "about 1 h 30 min"},
		{8.2 * 3600, "8 h 12 min", "about 8 h"},
		{31 * 3600, "31 h", "about 31 h"},
		{47*3600 + 3599, "2 d", "about 2 d"},
		{54 * 3600, "2 d 6 h", "about 2 d"},
		{21 * 86400, "21 d", "about 21 d"},
		{-1800, "-30 min", "no time"},
		{-0.3, "0 s", "no time"},
		{units.Span(nan), "not known", "not known"},
		{units.Span(math.Inf(1)), "not known", "not known"},
	} {
		t.Run(tt.want, func(t *testing.T) {
			same(t, "String", tt.span.String(), tt.want)
			same(t, "About", tt.span.About(), tt.about)
		})
	}
}

func TestColumns(t *testing.T) {
	for _, tt := range []struct {
		q                        any
		usNum, usUnit, siN, siUn string
	}{
		{units.Gallons(2), "2.0", "gal", "7.6", "L"},
		{units.Temperature(50), "122", "°F", "50", "°C"},
		{units.Minutes(90), "90", "min", "90", "min"},
		{20 * time.Second, "0.3", "min", "0.3", "min"},
		{units.Power(350), "0.35", "kW", "0.35", "kW"},
		{units.PH(9.8), "9.80", "", "9.80", ""},
		{units.Mass(nan), "not known", "lb", "not known", "kg"},
	} {
		t.Run(tt.usNum+tt.usUnit, func(t *testing.T) {
			same(t, "us number", units.US.Number(tt.q), tt.usNum)
			same(t, "us unit", units.US.Unit(tt.q), tt.usUnit)
			same(t, "si number", units.SI.Number(tt.q), tt.siN)
			same(t, "si unit", units.SI.Unit(tt.q), tt.siUn)
		})
	}
}

func TestPour(t *testing.T) {
	same(t, "us", units.US.Pour(units.Gallons(60.0/31)), "247.7 fl oz") // arithmetic
	same(t, "si", units.SI.Pour(units.Volume(0.0638)), "64 mL")
	same(t, "not known", units.SI.Pour(units.Volume(nan)), "not known")
}

// TestPairNeverLooksEqual: a refusal shows a bath and a limit that differ.
func TestPairNeverLooksEqual(t *testing.T) {
	for _, tt := range []struct {
		name        string
		sys         units.System
		bath, limit units.Temperature
		a, b        string
	}{
		{"far apart", units.US, units.Fahrenheit(126), units.Fahrenheit(110), "126 °F", "110 °F"},
		{"under a degree", units.US, units.Fahrenheit(109.6), units.Fahrenheit(110), "109.6 °F", "110 °F"},
		{"no finer than needed", units.US, units.Fahrenheit(109.64), units.Fahrenheit(110), "109.6 °F", "110 °F"},
		{"under a tenth", units.US, units.Fahrenheit(109.97), units.Fahrenheit(110), "109.97 °F", "110 °F"},
		{"either side of a half", units.US, units.Fahrenheit(109.4), units.Fahrenheit(110), "109 °F", "110 °F"},
		{"°C", units.SI, 43.1, 43, "43.1 °C", "43 °C"},
		{"equal", units.SI, 43, 43, "43 °C", "43 °C"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			a, b := tt.sys.TempPair(tt.bath, tt.limit)
			same(t, "bath", a, tt.a)
			same(t, "limit", b, tt.b)
		})
	}
	same(t, "one alone", units.US.Temp(units.Fahrenheit(109.64)), "110 °F")
	same(t, "fine", units.US.TempFine(units.Fahrenheit(109.64)), "109.6 °F")
}

func same(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s: got %q, want %q", what, got, want)
	}
}
