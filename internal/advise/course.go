package advise

import (
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// Temps is the bath temperatures of the fill as somebody measured them, by time.
func (x *Snapshot) Temps() []Temp {
	var out []Temp
	for _, t := range x.Life.Temps() {
		out = append(out, Temp{C: t.Is.BathC, At: t.At, HeaterOn: t.Is.Heat})
	}
	return out
}

// SetPoint is a set point and how long it was in force.
type SetPoint struct {
	C        units.Temperature
	From, To time.Time
}

// SetPoints lists the set points of the fill up to now, by time: the tank's, and
// those that were logged. What the tank's own was before it was changed is not
// kept.
func (x *Snapshot) SetPoints() []SetPoint {
	out := []SetPoint{{C: x.Bath.Tank.Set(), From: x.Life.Fill.At, To: x.Now}}
	for _, t := range bath.Of[*bath.Temp](x.Life.Entries) {
		last := &out[len(out)-1]
		if t.Is.SetC == nil || *t.Is.SetC == last.C {
			continue
		}
		last.To = t.At
		out = append(out, SetPoint{C: *t.Is.SetC, From: t.At, To: x.Now})
	}
	return out
}

// Looks lists what stood in the bath each time somebody looked at the mark, after
// what was poured in, the fill first. A level below nothing is 0: an imported
// line may say so.
func (x *Snapshot) Looks() []Level {
	full := x.Bath.Tank.VolumeL
	out := []Level{{VolumeL: x.Life.Fill.Is.VolumeL, At: x.Life.Fill.At, Known: true}}
	for _, w := range bath.Of[*bath.Water](x.Life.Entries) {
		stood := max(0, full-missing(w.Is)+w.Is.VolumeL)
		out = append(out, Level{VolumeL: stood, At: w.At, Known: true})
	}
	return out
}

// courseSteps is in how many steps a level is told between two times, what
// happened in between aside.
const courseSteps = 120

// LevelCourse is how high the bath probably stood from one time to another, no
// later than now: from each look on it falls by what evaporates. It is nil where
// that is not known.
func (x *Snapshot) LevelCourse(from, to time.Time) []Level {
	if !x.Open {
		return nil
	}
	book, ok := x.book()
	if !ok {
		return nil
	}
	if to.After(x.Now) {
		to = x.Now
	}
	log := liquor(x.Life)
	var out []Level
	for _, l := range book.Course(log, courseTimes(log, from, to)...) {
		out = append(out, Level{VolumeL: l.Now.Volume, At: l.At, Known: true})
	}
	return out
}

// courseTimes are even steps between two times and, at whatever happened, the
// moment and the one before it.
func courseTimes(log []heat.Event, from, to time.Time) []time.Time {
	if !to.After(from) {
		return nil
	}
	var out []time.Time
	for i := range courseSteps + 1 {
		out = append(out, from.Add(to.Sub(from)/courseSteps*time.Duration(i)))
	}
	for _, e := range log {
		if e.At.After(from) && !e.At.After(to) {
			out = append(out, e.At.Add(-1), e.At)
		}
	}
	slices.SortFunc(out, time.Time.Compare)
	return out
}
