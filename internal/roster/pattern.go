// Package roster says which platoon is on duty, and where one duty day ends
// and the next begins.
//
// It knows shift patterns, not people: who belongs to a platoon, who is off
// sick and who swapped is not its business. It never asks what time it is, and
// it takes the site's zone from the times it is given.
package roster

import (
	"fmt"
	"strings"
	"time"
)

// Pattern is how a station staffs its days: platoons in a fixed turn, one crew,
// or volunteers who meet on a drill night.
//
// The zero Pattern is one crew whose duty day begins at 07:00. Patterns can be
// compared with ==. Parse makes every other one.
type Pattern struct {
	name  string       // a name in cycles, drillName, or "" for one crew
	hour  clock        // change of shift, or start of the drill
	night time.Weekday // of the drill
	first date         // the day on which the cycle begins, with platoon A
}

// drillName marks the pattern of a volunteer station.
const drillName = "drill"

// dayBegins is the start of the duty day where no platoon changes: a drill in
// the evening and the clearing up after midnight then share one day.
// Common practice, no source.
const dayBegins = clock(7 * 60)

// firstDay begins the cycle of a pattern written without a date of its own.
var firstDay = dateOf(time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC))

// cycles holds one letter for each duty day, for each pattern with platoons.
// They are the three in common use by career departments; every platoon of each
// works a third of the days, 56 hours a week.
var cycles = map[string]string{
	"24/48": "ABC",
	"48/96": "AABBCC",
	"kelly": "ACABABCBC", // on, off, on, off, on, then four days off
}

// String writes p so that Parse reads it back. The zero Pattern is "".
func (p Pattern) String() string {
	switch {
	case p.name == "":
		return ""
	case p.name == drillName:
		return fmt.Sprintf("%s:%s@%s", drillName, dayName(p.night), p.hour)
	case p.first == firstDay:
		return fmt.Sprintf("%s@%s", p.name, p.hour)
	default:
		return fmt.Sprintf("%s@%s,A=%s", p.name, p.hour, p.first)
	}
}

// begins is the time of day at which a duty day starts.
func (p Pattern) begins() clock {
	if p.cycle() == "" {
		return dayBegins
	}
	return p.hour
}

// cycle is empty where there are no platoons.
func (p Pattern) cycle() string { return cycles[p.name] }

// platoon is the letter on duty on the duty day that begins on d, or "".
func (p Pattern) platoon(d date) string {
	cycle := p.cycle()
	if cycle == "" {
		return ""
	}
	n := len(cycle)
	i := (int(d-p.first)%n + n) % n // days before the first count backwards
	return cycle[i : i+1]
}

// dayName is the short name of a weekday as patterns write it: "tue".
func dayName(d time.Weekday) string { return strings.ToLower(d.String()[:3]) }
