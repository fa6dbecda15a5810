package chem

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bathside/internal/units"
)

// Point is one buffer of a calibration: how warm it was, and what the
// electrode gave in it, in millivolts.
type Point struct {
	Buffer Buffer
	At     units.Temperature
	MV     float64
}

// Check is one dip: a buffer, how warm it was, and what the meter read in it.
type Check struct {
	Buffer Buffer
	At     units.Temperature
	Read   units.PH
}

// How to write them; the refusals give these.
const (
	pointExample = "carbonate@25C=-175mV"
	checkExample = "carbonate@25C=9.98"
)

// ParsePoint reads a point as it is typed: carbonate@25C=-175mV. Spaces may
// stand about the signs, and a bare number after the = is millivolts, unless
// it may well be a pH. What the buffer is worth there is not looked at.
func ParsePoint(s string) (Point, error) {
	d, err := splitDip(s, "the millivolts", pointExample)
	if err != nil {
		return Point{}, err
	}
	mv, err := parseMV(d.buffer, d.value)
	if err != nil {
		return Point{}, asIn(err, pointExample)
	}
	return Point{d.buffer, d.at, mv}, nil
}

// ParseCheck reads a dip as it is typed: carbonate@25C=9.98. The pH may be
// typed without its point, as at the bath.
func ParseCheck(s string) (Check, error) {
	d, err := splitDip(s, "the pH that the meter read", checkExample)
	if err != nil {
		return Check{}, err
	}
	if _, err := units.Parse[units.Potential](d.value); err == nil {
		return Check{}, fmt.Errorf("%s is millivolts, not a pH: write what the meter read, as in %s", quoted(d.value), checkExample)
	}
	ph, err := units.ParsePHKeys(d.value)
	if err != nil {
		return Check{}, asIn(err, checkExample)
	}
	return Check{d.buffer, d.at, ph}, nil
}

// String is p as ParsePoint reads it back, to the last digit.
func (p Point) String() string {
	return fmt.Sprintf("%s@%sC=%smV", p.Buffer.Name, shortest(float64(p.At)), shortest(p.MV))
}

// String is c as ParseCheck reads it back, to the last digit.
func (c Check) String() string {
	read := shortest(float64(c.Read))
	if whole, part, _ := strings.Cut(read, "."); len(part) < 2 {
		read = whole + "." + (part + "00")[:2] // a whole number would be asked where its point is
	}
	return fmt.Sprintf("%s@%sC=%s", c.Buffer.Name, shortest(float64(c.At)), read)
}

// shortest prints x without an exponent, and -0 as 0.
func shortest(x float64) string { return strconv.FormatFloat(x+0, 'f', -1, 64) }

// dip is what a point and a check have in common.
type dip struct {
	buffer Buffer
	at     units.Temperature
	value  string
}

// splitDip reads buffer@temperature=value. What the value is, noun says.
func splitDip(s, noun, example string) (d dip, err error) {
	name, rest, hasAt := strings.Cut(s, "@")
	warm, value, hasValue := strings.Cut(rest, "=")
	switch {
	case strings.TrimSpace(s) == "":
		return dip{}, fmt.Errorf("nothing was written: write it like %s", example)
	case !hasAt:
		return dip{}, fmt.Errorf("%s has no @ between the buffer and how warm it was: write it like %s", quoted(s), example)
	case !hasValue:
		return dip{}, fmt.Errorf("%s has no = before %s: write it like %s", quoted(s), noun, example)
	case strings.TrimSpace(value) == "":
		return dip{}, fmt.Errorf("%s has nothing after the =: give %s, as in %s", quoted(s), noun, example)
	}
	d.value = strings.TrimSpace(value)
	if d.buffer, err = FindBuffer(shorten(name)); err != nil {
		return dip{}, asIn(err, example)
	}
	if err := units.Scan(&d.at, warm); err != nil {
		return dip{}, asIn(err, example)
	}
	return d, nil
}

// parseMV reads the millivolts of a point. A bare number that is near the pH
// of the buffer is refused: it is what a dip would have there.
func parseMV(b Buffer, s string) (float64, error) {
	var bare float64
	var mv units.Potential
	if units.Scan(&bare, s) == nil && math.Abs(bare-float64(b.Nominal())) <= 0.5 {
		return 0, fmt.Errorf("%s looks like a pH: give the millivolts with their unit", quoted(s))
	}
	err := units.SI.Scan(&mv, s)
	return float64(mv), err
}

// asIn ends a refusal with an example.
func asIn(err error, example string) error { return fmt.Errorf("%w, as in %s", err, example) }

// quoted is what was typed, trimmed, cut and safe to print.
func quoted(s string) string { return strconv.Quote(shorten(strings.TrimSpace(s))) }

// shorten cuts s to what a sentence repeats of it.
func shorten(s string) string {
	const longest = 32
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return s
}
