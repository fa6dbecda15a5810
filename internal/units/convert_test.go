package units_test

import (
	"math"
	"testing"
	"time"

	"bathside/internal/units"
)

// TestPublishedFactors checks what one of each unit is worth, as it is typed,
// against the published factor. A value with seven digits is as NIST SP 811
// prints it, so the tolerance is half its last digit; exact ones get 1e-15.
func TestPublishedFactors(t *testing.T) {
	const exact, seven = 1e-15, 1.5e-7
	for _, tt := range []struct {
		typed  string
		dst    func(string) (float64, error)
		want   float64
		within float64 // relative
		source string
	}{
		{"1 gal", in[units.Volume], 3.785411784, exact, "NIST Handbook 44, App. C: 231 in³"},
		{"1 qt", in[units.Volume], 0.946352946, exact, "NIST Handbook 44, App. C"},
		{"1 pt", in[units.Volume], 0.473176473, exact, "NIST Handbook 44, App. C"},
		{"1 fl oz", in[units.Volume], 0.0295735295625, exact, "NIST Handbook 44, App. C: 1/128 gal"},
		{"1 gal", in[units.Volume], 3.785412, seven, "NIST SP 811, B.8: 3.785412E-03 m³"},
		{"1 fl oz", in[units.Volume], 2.957353e-2, seven, "NIST SP 811, B.8: 2.957353E-05 m³"},
		{"1 mL", in[units.Volume], 1e-3, exact, "SI prefix"},
		{"1 lb", in[units.Mass], 0.45359237, exact, "NIST Handbook 44, App. C"},
		{"1 oz", in[units.Mass], 2.834952e-2, seven, "NIST SP 811, B.8"},
		{"1 g", in[units.Mass], 1e-3, exact, "SI prefix"},
		{"1 in", in[units.Length], 0.0254, exact, "NIST Handbook 44, App. C"},
		{"1 ft", in[units.Length], 0.3048, exact, "NIST Handbook 44, App. C"},
		{"1 cm", in[units.Length], 1e-2, exact, "SI prefix"},
		{"1 mm", in[units.Length], 1e-3, exact, "SI prefix"},
		{"1 ft2", in[units.Area], 0.09290304, exact, "NIST SP 811, B.8: 9.290304E-02 m², exact"},
		{"1 gpm", in[units.Flow], 6.309020e-2, seven, "NIST SP 811, B.8: 6.309020E-05 m³/s"},
		{"1 L/min", in[units.Flow], 1.0 / 60, exact, "SI brochure, table 8: 1 min = 60 s"},
		{"1 m3/h", in[units.Flow], 1.0 / 3.6, exact, "SI brochure, table 8: 1 h = 3600 s"},
		{"1 kW", in[units.Power], 1000, exact, "SI prefix"},
		{"1 min", in[units.Span], 60, exact, "SI brochure, table 8"},
		{"1 h", in[units.Span], 3600, exact, "SI brochure, table 8"},
		{"1 d", in[units.Span], 86400, exact, "SI brochure, table 8"},
	} {
		t.Run(tt.typed+" "+tt.source, func(t *testing.T) {
			got, err := tt.dst(tt.typed)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got/tt.want-1) > tt.within {
				t.Errorf("%s: got %.12g, want %.12g within %g", tt.typed, got, tt.want, tt.within)
			}
		})
	}
}

// in parses as a Q and returns the stored number.
func in[Q units.Quantity](s string) (float64, error) {
	q, err := units.Parse[Q](s)
	return float64(q), err
}

// TestThermometerPoints holds °F, °C and K at points where all three are
// known without rounding.
func TestThermometerPoints(t *testing.T) {
	for _, tt := range []struct {
		name    string
		f, c, k float64
		source  string
	}{
		{"absolute zero", -459.67, -273.15, 0, "NIST SP 811, B.8: t/°C = T/K - 273.15 = (t/°F - 32)/1.8"},
		{"the scales meet", -40, -40, 233.15, "arithmetic on the same"},
		{"ice", 32, 0, 273.15, "NIST Handbook 44, App. C"},
		{"meter's reference", 77, 25, 298.15, "arithmetic on the same"},
		{"set point", 122, 50, 323.15, "arithmetic on the same"},
		{"steam", 212, 100, 373.15, "NIST Handbook 44, App. C"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			near(t, "Fahrenheit", float64(units.Fahrenheit(tt.f)), tt.c)
			near(t, "Kelvin", float64(units.Kelvin(tt.k)), tt.c)
			near(t, "F", units.Temperature(tt.c).F(), tt.f)
			near(t, "K", units.Temperature(tt.c).K(), tt.k)
		})
	}
}

func TestSetPointIsExact(t *testing.T) {
	// (122 - 32)·5/9 is 50 with nothing left over: no 49.99 on any screen.
	if got := units.Fahrenheit(122); got != 50 {
		t.Errorf("122 °F: got %v °C, want exactly 50", float64(got))
	}
}

func TestDifferenceHasNoOffset(t *testing.T) {
	// 1 °C = 1.8 °F as an interval: NIST SP 811, B.8.
	near(t, "3 °C", units.Delta(3).F(), 5.4)
	near(t, "9 °F", float64(units.FahrenheitDegrees(9)), 5)
	d, err := units.Parse[units.Delta]("9F")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "9F typed", float64(d), 5)
}

func TestOunceAGallon(t *testing.T) {
	// 1 fl oz in a gallon is 1/128 = 7.8125 mL in a litre, exactly: arithmetic.
	got := units.FluidOunces(1).ML() / float64(units.Gallons(1))
	near(t, "mL/L", got, 7.8125)
}

func TestThirtyToOne(t *testing.T) {
	// 30:1 on 60 gal: 256 fl oz of the volume, 247.7 of the mixture. Arithmetic.
	near(t, "V/30", units.Gallons(60.0/30).FlOz(), 256)
	near(t, "V/31", units.Gallons(60.0/31).FlOz(), 247.741935483871)
}

// TestThereAndBack checks that each constructor undoes its method.
func TestThereAndBack(t *testing.T) {
	const x = 7.25
	for name, got := range map[string]float64{
		"gal":   units.Gallons(x).Gal(),
		"fl oz": units.FluidOunces(x).FlOz(),
		"°F":    units.Fahrenheit(x).F(),
		"K":     units.Kelvin(x).K(),
		"Δ°F":   units.FahrenheitDegrees(x).F(),
		"min":   units.Minutes(x).Min(),
		"h":     units.Hours(x).Hours(),
		"lb":    units.Pounds(x).Lb(),
		"in":    units.Inches(x).In(),
		"cm":    units.Centimetres(x).Cm(),
		"ft²":   units.SquareFeet(x).Ft2(),
		"kW":    units.Kilowatts(x).KW(),
		"gpm":   units.GallonsPerMinute(x).GPM(),
		"L/min": units.LitresPerMinute(x).LPM(),
	} {
		near(t, name, got, x)
	}
}

func TestDurationNeverWraps(t *testing.T) {
	for _, tt := range []struct {
		name string
		span units.Span
		want time.Duration
	}{
		{"a minute and a half", 90, 90 * time.Second},
		{"a tenth", 0.1, 100 * time.Millisecond},
		{"overdue", -60, -time.Minute},
		{"a thousand years", 86400 * 365 * 1000, math.MaxInt64},
		{"minus a thousand years", -86400 * 365 * 1000, math.MinInt64},
		{"not known", units.Span(math.NaN()), 0},
		{"for ever", units.Span(math.Inf(1)), math.MaxInt64},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.span.Duration(); got != tt.want {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
	if got := units.SpanOf(90 * time.Second); got != 90 {
		t.Errorf("SpanOf(1m30s): got %v, want 90", float64(got))
	}
}

// near compares to twelve digits, which is what arithmetic in float64 leaves.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-12*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}
