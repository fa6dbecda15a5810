package station

import "bathside/internal/pin"

// PINs are hashed as cheaply as can be, but for the tests that ask for the
// real cost.
func init() { pinCost = pin.Cost{MemoryKiB: 8, Passes: 1, Lanes: 1} }

// AtRealCost hashes new PINs as the program does, until the function it gives
// is called.
func AtRealCost() (done func()) {
	cheap := pinCost
	pinCost = pin.Standard
	return func() { pinCost = cheap }
}

// PINKey is what a name is kept under.
var PINKey = pinKey
