// Package units holds quantities: how people write them (64gal, 122F, 1h30) and
// how the trade reads them back (64.0 gal, 122 °F, 1 h 30 min).
//
// Every quantity is a float64 in one fixed unit, so it adds, compares and goes
// into JSON as a plain number. What was typed is never guessed at: a missing
// unit, a comma or 5:00 is asked about in one sentence, as an [Error].
//
// It is not a general units library. It knows the handful of units met at a
// station's bath and nothing about what a sensible value there would be.
package units

// Volume is an amount of liquid, or the room that a thing takes up, in litres.
type Volume float64

// Temperature is in degrees Celsius. A difference of two is a [Delta].
type Temperature float64

// Delta is a difference of temperatures in degrees Celsius: 3 °C is 5.4 °F.
type Delta float64

// Span is a length of time in seconds.
type Span float64

// Mass is in kilograms.
type Mass float64

// Length is in metres.
type Length float64

// Area is in square metres.
type Area float64

// Power is in watts.
type Power float64

// Flow is in litres per second.
type Flow float64

// Potential is what an electrode gives, in millivolts.
type Potential float64

// PH is an acidity in pH units. It has no unit name.
type PH float64

// Quantity is any of the types of this package.
type Quantity interface {
	Volume | Temperature | Delta | Span | Mass | Length | Area | Power | Flow | Potential | PH
}
