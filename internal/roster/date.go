package roster

import (
	"fmt"
	"time"
)

// date is a day of the calendar, in days since 1970-01-01. It has no zone.
type date int

// clock is a time of day as the clock on the wall shows it, in minutes after
// midnight.
type clock int

// dateOf is the day the calendar shows at t, in t's zone.
func dateOf(t time.Time) date {
	y, m, d := t.Date()
	return date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60))
}

// utc is the time c on day d, were the site to keep UTC.
func (d date) utc(c clock) time.Time {
	return time.Date(1970, time.January, 1+int(d), 0, int(c), 0, 0, time.UTC)
}

// at is the first instant at which the clock on the wall in loc has reached c
// on day d. Where the clock is put forward over c, that is the moment of the
// change; where it is put back and shows c twice, it is the first time.
//
// time.Date promises neither: it may choose either side of a change.
func (d date) at(c clock, loc *time.Location) time.Time {
	wall := d.utc(c)
	// No zone is a day away from UTC, so a day earlier the site keeps the
	// offset it has before a change that concerns d and c.
	early := offset(wall.Add(-24*time.Hour), loc)
	t := wall.Add(-early)
	late := offset(t, loc)
	if late == early {
		return t.In(loc)
	}
	t = wall.Add(-late)
	if offset(t, loc) == late {
		return t.In(loc)
	}
	// Too early by the one, too late by the other: the clock never shows c.
	change, _ := wall.Add(-early).In(loc).ZoneBounds()
	return change
}

// offset is how far the site is ahead of UTC at t.
func offset(t time.Time, loc *time.Location) time.Duration {
	_, seconds := t.In(loc).Zone()
	return time.Duration(seconds) * time.Second
}

func (d date) weekday() time.Weekday { return d.utc(0).Weekday() }

func (d date) String() string { return d.utc(0).Format(time.DateOnly) }

func (c clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }
