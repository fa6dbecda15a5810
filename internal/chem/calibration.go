package chem

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bathside/internal/units"
)

// Calibration is the straight line of an electrode, from what it gave in two
// or three buffers or from what the meter shows of it. The zero Calibration
// fails, and what it reads is no number.
type Calibration struct {
	SlopeMV  float64           // millivolts for one pH; below zero, for they fall as the pH rises
	SlopePct float64           // of what a perfect electrode gives at At
	OffsetMV float64           // what it gives at pH 7
	Zero     units.PH          // where it gives 0 mV
	At       units.Temperature // of the buffers, their mean
	Points   []Point           // none where the meter showed slope and offset
	Odd      Odd               // zero unless there are three points
}

// Odd is the buffer of three that the others agree least with.
type Odd struct {
	Buffer string
	Off    units.PH // how far above the line of the other two it reads
}

// What Calibrate takes.
const (
	// A buffer of 9 or more and one about 7 stand on both sides of nearly all
	// that a bath reads; common practice. Borax is 8.96 at 60 °C, 7.00 is 7.12
	// at 0 °C.
	highBuffer, lowBuffer = units.PH(8.9), units.PH(7.2)

	// sameWarmth is how far apart the buffers may be: within about 5 °C there
	// is no significant effect, USGS I-2587.
	sameWarmth = 5.0

	// No electrode in use is so far from a perfect one, in mV, that it is not
	// a slip of the pen; from memory.
	slipMV = 250

	// goodOffset is the most that a clean electrode gives at pH 7, in mV: a
	// public calibration worksheet.
	goodOffset = 30
)

// Calibrate fits a line to two or three points, by least squares through three.
// Each buffer counts with its value at its own temperature. Its error is a
// sentence for the crew. A poor line is no error: Judge tells.
func Calibrate(points []Point) (Calibration, error) {
	if err := checkPoints(points); err != nil {
		return Calibration{}, err
	}
	slope, at7 := leastSquares(points)
	if slope >= 0 {
		first, last := outermost(points)
		return Calibration{}, fmt.Errorf("the millivolts must fall as the pH rises, and %s gave %s, %s gave %s: look for a lost minus sign, then for a cracked or unplugged electrode",
			first.Buffer.Name, mvText(first.MV), last.Buffer.Name, mvText(last.MV))
	}
	at := meanTemperature(points)
	c := electrode(-100*slope/NernstSlope(at), at7, at)
	c.Points = slices.Clone(points)
	c.Odd = oddOf(points)
	return c, nil
}

// FromMeter is the line that a meter shows after it was calibrated: the slope
// in percent, the offset in millivolts at pH 7, and how warm the buffers were.
// Its error is a sentence for the crew.
func FromMeter(slopePct, offsetMV float64, at units.Temperature) (Calibration, error) {
	const coldest, hottest = 0, 60 // where the tables of buffers end
	switch {
	case !(slopePct >= 10 && slopePct <= 200):
		return Calibration{}, fmt.Errorf("a slope of %s %% is none of an electrode: give it in percent, like 98.3", shortest(slopePct))
	case !(math.Abs(offsetMV) <= slipMV):
		return Calibration{}, fmt.Errorf("an offset of %s is none of an electrode: give it in mV, like 0.2mV; good ones are within 30 mV of 0", mvText(offsetMV))
	case !(at >= coldest && at <= hottest):
		return Calibration{}, fmt.Errorf("buffers at %s have no known values: calibrate from 0 °C to 60 °C (32 °F to 140 °F)", units.SI.TempFine(at))
	}
	return electrode(slopePct, offsetMV, at), nil
}

// Reads is the pH for the millivolts that the electrode gives in a sample: with
// temperature compensation (atc) the slope is the sample's, without it the
// buffers'. The lines of all temperatures cross at pH 7, where the offset keeps
// its millivolts.
func (c Calibration) Reads(mv float64, at units.Temperature, atc bool) units.PH {
	slope := c.SlopeMV
	if atc {
		slope = -c.SlopePct / 100 * NernstSlope(at)
	}
	return units.PH(7 + (mv-c.OffsetMV)/slope)
}

// electrode is the calibration with that slope and offset.
func electrode(slopePct, offsetMV float64, at units.Temperature) Calibration {
	slope := -slopePct / 100 * NernstSlope(at)
	return Calibration{
		SlopeMV: slope, SlopePct: slopePct, OffsetMV: offsetMV,
		Zero: units.PH(7 - offsetMV/slope), At: at,
	}
}

// leastSquares is the straight line of least squares: millivolts for one pH, and
// millivolts at pH 7.
func leastSquares(points []Point) (slope, at7 float64) {
	var x, y, xx, xy float64
	for _, p := range points {
		ph := float64(p.ph()) - 7
		x, y, xx, xy = x+ph, y+p.MV, xx+ph*ph, xy+ph*p.MV
	}
	n := float64(len(points))
	slope = (n*xy - x*y) / (n*xx - x*x)
	return slope, (y - slope*x) / n
}

// oddOf leaves out each of three points in turn. The odd one is that without
// which the others make the line most like a good electrode's: with three
// points alone nothing tells for sure which of them is wrong.
func oddOf(points []Point) Odd {
	if len(points) < 3 {
		return Odd{}
	}
	var odd Odd
	least := math.Inf(1)
	for i, p := range points {
		slope, at7 := leastSquares(slices.Concat(points[:i], points[i+1:]))
		ideal := NernstSlope(meanTemperature(points))
		if far := math.Abs(slope/ideal+1)/0.05 + math.Abs(at7)/goodOffset; far < least {
			least = far
			odd = Odd{p.Buffer.Name, units.PH(7+(p.MV-at7)/slope) - p.ph()}
		}
	}
	return odd
}

// ph is what the buffer is where the point was taken.
func (p Point) ph() units.PH { return p.Buffer.at(p.At) }

func meanTemperature(points []Point) units.Temperature {
	var sum units.Temperature
	for _, p := range points {
		sum += p.At
	}
	return sum / units.Temperature(len(points))
}

// outermost are the most acid and the most alkaline of the points.
func outermost(points []Point) (low, high Point) {
	byPH := func(a, b Point) int { return cmp.Compare(a.ph(), b.ph()) }
	return slices.MinFunc(points, byPH), slices.MaxFunc(points, byPH)
}

func mvText(mv float64) string { return units.SI.Text(units.Potential(mv)) }
