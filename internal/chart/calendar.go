package chart

import (
	"math"
	"time"
)

// Calendar returns a Ticks for an x that counts seconds since 1970, as
// time.Time.Unix gives them, between the years 70 and 3870. Ticks stand at full minutes and hours, midnights,
// Mondays, first days of months and of years as loc has them, across changes of
// the clock too. A date names its month only where the month is new, and the
// first month of a year is the year.
func Calendar(loc *time.Location) Ticks {
	return Labels{func(t time.Time) string { return t.Format("15:04") }, func(t time.Time) string { return t.Format("2 Jan") }}.Calendar(loc)
}

// Labels print a time of day and a date. They are given what the clock on the
// wall shows, as a time in UTC.
type Labels struct{ Clock, Date func(time.Time) string }

// Calendar is the package's own with these labels.
func (l Labels) Calendar(loc *time.Location) Ticks {
	return func(lo, hi float64, most int) []Tick {
		const reach = 6e10 // the years 69 to 3871
		if most < 1 || !(hi > lo) || lo < -reach || hi > reach {
			return nil
		}
		for _, p := range periods {
			// A period is at times a little shorter than it says (February, a
			// spring night), never by a fifth.
			if (hi-lo)/p.about.Seconds() > float64(most)*1.2 {
				continue
			}
			if ticks := p.ticks(lo, hi, loc, l); len(ticks) <= most {
				return ticks
			}
		}
		return nil
	}
}

// period is a distance of ticks on a calendar: so many of a unit.
type period struct {
	about time.Duration
	n     int
	unit  unit
}

// unit is what a period counts in.
type unit int

const (
	minutes unit = iota
	days
	months
)

const (
	day   = 24 * time.Hour
	month = 30 * day
	year  = 365 * day
)

var periods = []period{
	{time.Minute, 1, minutes}, {2 * time.Minute, 2, minutes}, {5 * time.Minute, 5, minutes},
	{10 * time.Minute, 10, minutes}, {15 * time.Minute, 15, minutes}, {30 * time.Minute, 30, minutes},
	{time.Hour, 60, minutes}, {2 * time.Hour, 120, minutes}, {3 * time.Hour, 180, minutes},
	{6 * time.Hour, 360, minutes}, {12 * time.Hour, 720, minutes},
	{day, 1, days}, {2 * day, 2, days}, {7 * day, 7, days}, {14 * day, 14, days},
	{month, 1, months}, {2 * month, 2, months}, {3 * month, 3, months}, {6 * month, 6, months},
	{year, 12, months}, {2 * year, 24, months}, {5 * year, 60, months}, {10 * year, 120, months},
	{20 * year, 240, months}, {50 * year, 600, months}, {100 * year, 1200, months},
}

// ticks returns a tick at each start of the period from lo to hi. It counts on
// the wall clock, which only ever goes forward, and asks loc when that was: no
// change of the clock can make it stand still.
func (p period) ticks(lo, hi float64, loc *time.Location, say Labels) []Tick {
	var ticks []Tick
	var last time.Time // on the wall
	first := p.start(onWall(time.Unix(int64(math.Floor(lo)), 0).In(loc)))
	for i := 0; ; i++ {
		wall := p.after(first, i)
		t := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), 0, 0, loc)
		at := float64(t.Unix())
		if at > hi {
			return ticks
		}
		// An hour the clock jumps over has no place; a midnight it jumps over
		// is still the start of a day.
		skipped := p.unit == minutes && !onWall(t).Equal(wall)
		if at < lo || skipped {
			continue
		}
		ticks = append(ticks, Tick{at, p.label(wall, last, say)})
		last = wall
	}
}

// onWall returns what the clock on the wall shows at t, as a time in UTC.
func onWall(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
}

// start returns the last start of the period at or before the wall time t.
func (p period) start(t time.Time) time.Time {
	y, m, d := t.Date()
	switch p.unit {
	case minutes:
		of := t.Hour()*60 + t.Minute()
		return time.Date(y, m, d, 0, of-of%p.n, 0, 0, time.UTC)
	case days:
		// Days are counted from a Monday, so that sevens of them start on one.
		const monday = 4 // 5 January 1970
		n := int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix()/86400) - monday
		return time.Date(y, m, d-(n%p.n+p.n)%p.n, 0, 0, 0, 0, time.UTC)
	default:
		n := y*12 + int(m) - 1
		return time.Date(y, m-time.Month(n%p.n), 1, 0, 0, 0, 0, time.UTC)
	}
}

// after returns the start of the i-th period after the one that starts at t.
func (p period) after(t time.Time, i int) time.Time {
	switch p.unit {
	case minutes:
		return t.Add(time.Duration(i*p.n) * time.Minute)
	case days:
		return t.AddDate(0, 0, i*p.n)
	default:
		return t.AddDate(0, i*p.n, 0)
	}
}

// label names the wall time t, given the tick before it, zero for the first.
func (p period) label(t, last time.Time, say Labels) string {
	midnight := t.Hour() == 0 && t.Minute() == 0
	switch {
	case p.unit == minutes && !midnight:
		return say.Clock(t)
	case p.unit == months && t.Month() == time.January:
		return t.Format("2006")
	case p.unit == months:
		return t.Format("Jan")
	case p.unit == days && !last.IsZero() && last.Month() == t.Month():
		return t.Format("2")
	default:
		return say.Date(t)
	}
}
