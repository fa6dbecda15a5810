package chem

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// checkPoints refuses what cannot be a calibration, in the order in which a
// crew would put it right.
func checkPoints(points []Point) error {
	switch n := len(points); {
	case n < 2:
		return fmt.Errorf("a calibration needs two or three buffers and there are fewer than two: give each like %s; one dip alone is a check, like %s", pointExample, checkExample)
	case n > 3:
		return fmt.Errorf("a calibration needs two or three buffers and there are %d: leave some out", n)
	}
	for _, check := range []func([]Point) error{knownValues, differentBuffers, sameTemperature, aboutTheBath, soundMV} {
		if err := check(points); err != nil {
			return err
		}
	}
	return nil
}

func knownValues(points []Point) error {
	for _, p := range points {
		if _, err := p.Buffer.PH(p.At); err != nil {
			return err
		}
	}
	return nil
}

func differentBuffers(points []Point) error {
	seen := map[string]bool{}
	for _, p := range points {
		if seen[p.Buffer.Name] {
			return fmt.Errorf("%s is there twice: give two different buffers, like 7.00 and 10.01", p.Buffer.Name)
		}
		seen[p.Buffer.Name] = true
	}
	return nil
}

// sameTemperature keeps the buffers near enough to one temperature to share
// one slope.
func sameTemperature(points []Point) error {
	coldest, hottest := points[0].At, points[0].At
	for _, p := range points {
		coldest, hottest = min(coldest, p.At), max(hottest, p.At)
	}
	if tenths(float64(hottest-coldest)) > sameWarmth {
		return fmt.Errorf("the buffers are at %s and %s, too far apart for one slope: bring them within 5 °C (9 °F) of each other, then calibrate again",
			units.SI.TempFine(coldest), units.SI.TempFine(hottest))
	}
	return nil
}

// aboutTheBath wants a buffer on either side of where a bath reads.
func aboutTheBath(points []Point) error {
	low, high := outermost(points)
	switch {
	case high.ph() < highBuffer:
		return fmt.Errorf("the highest of these buffers is %s at pH %s and a bath reads 9 to 11.5: take borax (9.18) or carbonate (10.01) for one of them", high.Buffer.Name, high.ph())
	case low.ph() > lowBuffer:
		return fmt.Errorf("the lowest of these buffers is %s at pH %s, too near the bath to give a slope: take 7.00 or phosphate (6.86) for one of them", low.Buffer.Name, low.ph())
	}
	return nil
}

// soundMV refuses millivolts that no electrode gives.
func soundMV(points []Point) error {
	for _, p := range points {
		fromSeven := float64(p.ph()) - 7
		about := -NernstSlope(p.At) * fromSeven
		astray := math.Abs(fromSeven) > 1 && p.MV*math.Copysign(1, fromSeven) > goodOffset
		switch {
		case !(math.Abs(p.MV-about) <= slipMV) && !(astray && math.Abs(-p.MV-about) <= slipMV/2):
			return fmt.Errorf("%s in %s at %s is none of an electrode, which gives about %s there: check the digits and the minus",
				mvText(p.MV), p.Buffer.Name, units.SI.Temp(p.At), mvText(about))
		case astray:
			return fmt.Errorf("%s in %s at %s has the wrong sign: a pH electrode gives about %s there, below 0 where the pH is above 7; check the minus",
				mvText(p.MV), p.Buffer.Name, units.SI.Temp(p.At), mvText(about))
		}
	}
	return nil
}

// tenths and hundredths round x as it is shown, so that no sentence says that
// a number is beyond a limit that it prints equal to.
func tenths(x float64) float64 { return math.Round(10*x) / 10 }

func hundredths(x float64) float64 { return math.Round(100*x) / 100 }
