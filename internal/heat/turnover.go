package heat

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Filter is a pump that sends a well mixed bath through a cartridge.
// Efficiency is the part of the soil that one pass keeps back, 0 to 1.
type Filter struct {
	Flow       units.Flow
	Volume     units.Volume
	Efficiency float64
}

// Filtered is what a run of the filter came to.
type Filtered struct {
	PerHour   float64 // volumes of the bath an hour
	Turnovers float64 // volumes of the bath
	Removed   float64 // of the soil, 0 to 1, none added meanwhile
}

// Run is what a run of t comes to. In a well mixed bath each pass meets water
// that is partly clean: three turnovers filter 95 % of it, not all. Figures that
// are none of a filter are refused in one sentence.
func (f Filter) Run(t units.Span) (Filtered, error) {
	if err := f.check(); err != nil {
		return Filtered{}, err
	}
	if !(t >= 0 && t < units.Span(math.Inf(1))) {
		return Filtered{}, fmt.Errorf("a filter run of %s is none: give its time, as in 30min", t)
	}
	n := f.perSecond() * float64(t)
	return Filtered{PerHour: f.perSecond() * 3600, Turnovers: n, Removed: -math.Expm1(-f.Efficiency * n)}, nil
}

// Time is how long a run removes that part of the soil, 0 to below 1. It is
// without end for a cartridge that keeps nothing back.
func (f Filter) Time(removed float64) (units.Span, error) {
	if err := f.check(); err != nil {
		return 0, err
	}
	if !(removed >= 0 && removed < 1) {
		return 0, fmt.Errorf("no run removes %g of the soil: give a part from 0 to below 1, as in 0.9", removed)
	}
	return units.Span(-math.Log1p(-removed) / (f.Efficiency * f.perSecond())), nil
}

// perSecond is turnovers a second.
func (f Filter) perSecond() float64 { return float64(f.Flow) / float64(f.Volume) }

func (f Filter) check() error {
	switch {
	case !(f.Flow > 0 && f.Flow < units.Flow(math.Inf(1))):
		return fmt.Errorf("a pump of %s moves nothing: give its flow, as in 8gpm", units.SI.Text(f.Flow))
	case !(f.Volume >= least && f.Volume <= most):
		return fmt.Errorf("a bath of %s is none we can reckon with: give its volume, 1 L to 20000 L (5280 gal)", units.SI.Text(f.Volume))
	case !(f.Efficiency >= 0 && f.Efficiency <= 1):
		return fmt.Errorf("an efficiency of %g is not within 0 to 1: write 0.9 for 90 %%", f.Efficiency)
	}
	return nil
}
