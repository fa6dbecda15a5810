package chem

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bathside/internal/units"
)

// Grade is what a check of a meter came to. The zero Grade is Fail.
type Grade int

// The grades, from the worst.
const (
	Fail Grade = iota
	Warn
	Pass
)

// String is "pass", "warn" or "fail".
func (g Grade) String() string {
	switch g {
	case Pass:
		return "pass"
	case Warn:
		return "warn"
	}
	return "fail"
}

// MarshalText writes the grade as String has it.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// Verdict is a calibration or a dip judged, for the crew.
type Verdict struct {
	OK    bool // readings may rest on it
	Grade Grade
	Say   string   // what was found, and what to do unless it is sound
	Notes []string // sentences about what may lie behind it; none of them changes the grade
}

// What is accepted. Slope in percent: 95 to 105 is accepted and 92 to 95 warned
// of, by a protocol of a long-term ecology station and common practice. A
// buffer reads within 0.1 of its value: the calibration practice of drinking
// water laboratories, and operator training texts of a state.
const (
	goodSlope, leastSlope, mostSlope = 95, 92, 105
	goodBuffer                       = 0.1
)

// Judge says whether to trust c. Bath is how warm the bath is that will be
// read, or 0 where nobody knows; checks are dips made after the calibration.
func (c Calibration) Judge(bath units.Temperature, checks ...Check) Verdict {
	found := []finding{c.judgeSlope(), c.judgeOffset(), c.judgeOdd()}
	notes := c.traps(bath)
	for _, dip := range checks {
		found = append(found, dip.judge("pour fresh buffer, calibrate again"))
		notes = append(notes, dip.traps()...)
	}
	v := verdict(c.head(), found)
	v.Notes = notes
	return v
}

// head is what the line came to. An odd one that is too far off is said with
// what to do about it.
func (c Calibration) head() string {
	head := fmt.Sprintf("slope %.1f %%, offset %s", tenths(c.SlopePct), mvText(c.OffsetMV))
	if len(c.Points) > 2 && c.judgeOdd() == sound {
		head += fmt.Sprintf(", three buffers agree within %.2f", math.Abs(float64(c.Odd.Off)))
	}
	return head
}

// Dip judges one dip, made to see whether a meter still reads right. It stands
// for a calibration only in a buffer near what a bath reads: any other is a
// warning at best, and readings may not rest on it.
func Dip(check Check) Verdict {
	found := check.judge("rinse, take fresh buffer, try again; then calibrate with two buffers")
	v := Verdict{OK: found.grade == Pass, Grade: found.grade, Say: found.say, Notes: check.traps()}
	switch {
	case !v.OK:
	case check.Buffer.at(check.At) < highBuffer:
		v.OK, v.Grade = false, Warn
		v.Say = check.found() + ": right, but it tells nothing of a bath at 9 to 11.5; dip in carbonate or borax"
	default:
		v.Say = check.found() + ": checked"
	}
	return v
}

// finding is one thing looked at. Its say is empty where it is good.
type finding struct {
	grade Grade
	say   string
}

var sound = finding{grade: Pass}

// verdict is the verdict by the worst of what was found, which alone is said.
func verdict(head string, found []finding) Verdict {
	worst := slices.MinFunc(found, func(a, b finding) int { return int(a.grade - b.grade) }).grade
	if worst == Pass {
		return Verdict{OK: true, Grade: Pass, Say: head + ": good"}
	}
	var say []string
	for _, f := range found {
		if f.grade == worst {
			say = append(say, f.say)
		}
	}
	return Verdict{OK: worst == Warn, Grade: worst, Say: head + ": " + strings.Join(say, "; ")}
}

func (c Calibration) judgeSlope() finding {
	switch pct := tenths(c.SlopePct); {
	case pct > mostSlope:
		return finding{Fail, "a slope above 105 % is no electrode's: see which buffers they were and how warm, calibrate again"}
	case pct >= goodSlope:
		return sound
	case pct >= leastSlope:
		return finding{Warn, "good enough for now, but below 95 % the electrode is dirty or old: clean it, calibrate again soon"}
	}
	return finding{Fail, "below 92 % the slope is too low: clean the electrode, calibrate again in fresh buffers; if it stays low, fit a new electrode"}
}

func (c Calibration) judgeOffset() finding {
	if math.Abs(tenths(c.OffsetMV)) <= goodOffset {
		return sound
	}
	return finding{Fail, "the offset is more than 30 mV from 0: clean the electrode, calibrate again"}
}

func (c Calibration) judgeOdd() finding {
	if off := math.Abs(hundredths(float64(c.Odd.Off))); off > goodBuffer {
		return finding{Fail, fmt.Sprintf("%s is %.2f pH off the line of the other two: pour it fresh, calibrate again", c.Odd.Buffer, off)}
	}
	return sound
}

// judge compares what was read with what the buffer is; do is what to do
// where they differ.
func (c Check) judge(do string) finding {
	ph, err := c.Buffer.PH(c.At)
	if err != nil {
		return finding{Fail, err.Error()}
	}
	off := math.Abs(hundredths(float64(c.Read - ph)))
	if off <= goodBuffer {
		return sound
	}
	return finding{Fail, fmt.Sprintf("%s, %.2f off: %s", c.found(), off, do)}
}

// found says what was read and what is true.
func (c Check) found() string {
	return fmt.Sprintf("%s reads %s and should read %s", c.Buffer.Name, c.Read, c.Buffer.at(c.At))
}
