package chem

import (
	"fmt"
	"math"
	"strconv"

	"bathside/internal/units"
)

// Two mistakes leave a meter that looks healthy and reads wrong: warm buffers
// entered with the numbers on their bottles, which hold at 25 °C, and no
// temperature compensation. Each has its own signature. Recognising it draws a
// note and no more, for a tired electrode may look the same.

const (
	// The least by which a trap must change a slope, in percent, or a dip
	// before it is looked for, and how near a dip must come to it. Judgement,
	// from the 0.06 that one reading is good to.
	plainPct, plainPH, nearTrap = 1.5, 0.05, 0.03

	// warmBath is from where buffers at 25 °C are not at the bath's warmth.
	warmBath = units.Temperature(35)
)

// traps are the mistakes that the line and its points hint at.
func (c Calibration) traps(bath units.Temperature) []string {
	var notes []string
	for _, note := range []string{c.likeMillivolts(), c.toldTheBottle(), c.writtenAs25(bath)} {
		if note != "" {
			notes = append(notes, note)
		}
	}
	return notes
}

// likeMillivolts catches a slope in mV for one pH given as percent.
func (c Calibration) likeMillivolts() string {
	pct := 100 * c.SlopePct / NernstSlope(c.At)
	if len(c.Points) > 0 || !(pct >= leastSlope && pct <= mostSlope) || c.SlopePct >= leastSlope {
		return ""
	}
	return fmt.Sprintf("%.1f looks like a slope in mV for one pH: at %s that is %.1f %%; see which of the two the meter shows",
		c.SlopePct, units.SI.Temp(c.At), pct)
}

// toldTheBottle catches a slope that a good electrode shows when a meter is
// told the bottles' numbers for buffers that are not at 25 °C. With true
// millivolts there is no such trap.
func (c Calibration) toldTheBottle() string {
	low, high := Buffers[1], Buffers[4] // the pair of the trade: 6.86 and 10.01
	perfect, reads, err := bottleTrap(low, high, c.At, 10.10)
	if err != nil || len(c.Points) > 0 || math.Abs(perfect-100) < plainPct {
		return ""
	}
	truly := 100 * c.SlopePct / perfect
	// No electrode beats a perfect one; half a percent is for rounding.
	if truly < goodSlope || truly > 100.5 || math.Abs(truly-100) >= math.Abs(c.SlopePct-100) {
		return ""
	}
	return fmt.Sprintf("at %s a meter that is told %s and %s, as on the bottles, shows %.1f %% with a perfect electrode, and a true 10.10 as %s: make sure that it was told the buffers' values at their temperature; the slope would then be %.1f %%",
		units.SI.Temp(c.At), low.Label, high.Label, perfect, reads, truly)
}

// bottleTrap is what a perfect electrode shows after a meter was told the
// numbers on the bottles of two buffers at a temperature: a slope in percent,
// and what the meter then reads in a sample of pH truth at that temperature.
func bottleTrap(low, high Buffer, at units.Temperature, truth units.PH) (slopePct float64, reads units.PH, err error) {
	lowPH, err := low.PH(at)
	if err != nil {
		return 0, 0, err
	}
	highPH, err := high.PH(at)
	if err != nil {
		return 0, 0, err
	}
	stretch := (high.bottle() - low.bottle()) / (highPH - lowPH)
	return 100 / float64(stretch), low.bottle() + (truth-lowPH)*stretch, nil
}

// bottle is the number on the bottle of b, NaN where there is none.
func (b Buffer) bottle() units.PH {
	x, err := strconv.ParseFloat(b.Label, 64)
	if err != nil {
		x = math.NaN()
	}
	return units.PH(x)
}

// writtenAs25 asks about points that are all written as exactly 25 °C.
func (c Calibration) writtenAs25(bath units.Temperature) string {
	if len(c.Points) == 0 || !(bath >= warmBath) {
		return ""
	}
	for _, p := range c.Points {
		if p.At != 25 {
			return ""
		}
	}
	all := "both"
	if len(c.Points) > 2 {
		all = "all three"
	}
	return fmt.Sprintf("%s buffers are written as 25 °C and the bath is at %s: make sure that they were at room temperature and measured, not read from the label",
		all, units.SI.Temp(bath))
}

// traps are the mistakes that a dip hints at, where it is nearer to what they
// show than to what is true.
func (c Check) traps() []string {
	truth, err := c.Buffer.PH(c.At)
	if err != nil {
		return nil
	}
	var notes []string
	like := func(trap units.PH) bool {
		plain := math.Abs(float64(trap-truth)) >= plainPH
		near := math.Abs(float64(c.Read - trap))
		return plain && near <= nearTrap && near < math.Abs(float64(c.Read-truth))
	}
	if bottle := c.Buffer.bottle(); like(bottle) {
		notes = append(notes, fmt.Sprintf("%s is what %s is at 25 °C, and at %s it is %s: make sure that the meter was not set to the bottles' numbers in warm buffer",
			bottle, c.Buffer.Name, units.SI.Temp(c.At), truth))
	}
	if shown := withoutATC(truth, c.At); like(shown) {
		notes = append(notes, fmt.Sprintf("%s is what a meter without temperature compensation reads in %s at %s: see that its temperature probe is in, or tell it the temperature",
			shown, c.Buffer.Name, units.SI.Temp(c.At)))
	}
	return notes
}

// withoutATC is what a meter that works with the slope of 25 °C reads in a
// sample at another temperature.
func withoutATC(ph units.PH, at units.Temperature) units.PH {
	return 7 + (ph-7)*units.PH(NernstSlope(at)/NernstSlope(25))
}
