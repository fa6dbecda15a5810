package units

import (
	"math"
	"time"
)

// Sizes of the customary units, all exact by definition.
// Source: NIST Handbook 44, Appendix C; NIST SP 811, Appendix B.8.
const (
	litresPerGallon = 3.785411784 // 231 cubic inches
	litresPerQuart  = litresPerGallon / 4
	litresPerPint   = litresPerGallon / 8
	litresPerFlOz   = litresPerGallon / 128
	kilosPerPound   = 0.45359237
	kilosPerOunce   = kilosPerPound / 16
	metresPerInch   = 0.0254
	metresPerFoot   = 0.3048
	zeroCelsius     = 273.15  // in kelvin
	absoluteZero    = -273.15 // in °C
)

// Gallons returns a volume of so many US gallons.
func Gallons(x float64) Volume { return Volume(x * litresPerGallon) }

// FluidOunces returns a volume of so many US fluid ounces.
func FluidOunces(x float64) Volume { return Volume(x * litresPerFlOz) }

// Gal returns the volume in US gallons.
func (v Volume) Gal() float64 { return float64(v) / litresPerGallon }

// FlOz returns the volume in US fluid ounces.
func (v Volume) FlOz() float64 { return float64(v) / litresPerFlOz }

// ML returns the volume in millilitres.
func (v Volume) ML() float64 { return float64(v) * 1000 }

// Fahrenheit returns the temperature that a °F thermometer shows as x.
func Fahrenheit(x float64) Temperature { return Temperature((x - 32) * 5 / 9) }

// Kelvin returns the temperature of x kelvin.
func Kelvin(x float64) Temperature { return Temperature(x - zeroCelsius) }

// F returns the temperature in °F.
func (t Temperature) F() float64 { return float64(t)*9/5 + 32 }

// K returns the temperature in kelvin.
func (t Temperature) K() float64 { return float64(t) + zeroCelsius }

// FahrenheitDegrees returns a difference of so many °F: 9 °F is 5 °C.
func FahrenheitDegrees(x float64) Delta { return Delta(x * 5 / 9) }

// F returns the difference in °F; the 32 of the scale plays no part.
func (d Delta) F() float64 { return float64(d) * 9 / 5 }

// Minutes returns a span of so many minutes.
func Minutes(x float64) Span { return Span(x * 60) }

// Hours returns a span of so many hours.
func Hours(x float64) Span { return Span(x * 3600) }

// SpanOf returns d as a Span.
func SpanOf(d time.Duration) Span { return Span(d.Seconds()) }

// Min returns the span in minutes.
func (s Span) Min() float64 { return float64(s) / 60 }

// Hours returns the span in hours.
func (s Span) Hours() float64 { return float64(s) / 3600 }

// Duration returns the span to the nanosecond. Beyond the 292 years that a
// time.Duration holds it is the longest there is; NaN is zero.
func (s Span) Duration() time.Duration {
	ns := math.Round(float64(s) * float64(time.Second))
	switch {
	case math.IsNaN(ns):
		return 0
	case ns >= math.MaxInt64:
		return math.MaxInt64
	case ns <= math.MinInt64:
		return math.MinInt64
	}
	return time.Duration(ns)
}

// Pounds returns a mass of so many avoirdupois pounds.
func Pounds(x float64) Mass { return Mass(x * kilosPerPound) }

// Lb returns the mass in avoirdupois pounds.
func (m Mass) Lb() float64 { return float64(m) / kilosPerPound }

// Inches returns a length of so many inches.
func Inches(x float64) Length { return Length(x * metresPerInch) }

// Centimetres returns a length of so many centimetres.
func Centimetres(x float64) Length { return Length(x / 100) }

// In returns the length in inches.
func (l Length) In() float64 { return float64(l) / metresPerInch }

// Cm returns the length in centimetres.
func (l Length) Cm() float64 { return float64(l) * 100 }

// SquareFeet returns an area of so many square feet.
func SquareFeet(x float64) Area { return Area(x * (metresPerFoot * metresPerFoot)) }

// Ft2 returns the area in square feet.
func (a Area) Ft2() float64 { return float64(a) / (metresPerFoot * metresPerFoot) }

// Kilowatts returns a power of so many kilowatts.
func Kilowatts(x float64) Power { return Power(x * 1000) }

// KW returns the power in kilowatts.
func (p Power) KW() float64 { return float64(p) / 1000 }

// GallonsPerMinute returns a flow of so many US gallons per minute.
func GallonsPerMinute(x float64) Flow { return Flow(x * litresPerGallon / 60) }

// LitresPerMinute returns a flow of so many litres per minute.
func LitresPerMinute(x float64) Flow { return Flow(x / 60) }

// GPM returns the flow in US gallons per minute.
func (f Flow) GPM() float64 { return float64(f) * 60 / litresPerGallon }

// LPM returns the flow in litres per minute.
func (f Flow) LPM() float64 { return float64(f) * 60 }
