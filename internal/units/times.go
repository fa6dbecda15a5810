package units

import (
	"strings"
	"time"
)

// Times says how people see times of day and dates. It changes nothing about
// what is stored, and what other programs read stays as RFC 3339 has it. Each
// time is shown in its own zone. The zero value is 19:05 and 2 Jan.
type Times struct {
	Twelve bool // 7:05 pm
	Dates  Dates
}

// Dates is the order of a date.
type Dates int

// The orders of a date. DayMonth is the zero value.
const (
	DayMonth Dates = iota // 2 Jan
	MonthDay              // Jan 2
	ISO                   // 2026-01-02, always with its year (ISO 8601)
)

// The words for them, as a station sets them.
const (
	Clock24    = "24h"
	Clock12    = "12h"
	DatesDay   = "day-month"
	DatesMonth = "month-day"
	DatesISO   = "iso"
)

// TimesOf is what a station set by these words; any other is the default.
func TimesOf(clock, dates string) Times {
	s := Times{Twelve: clock == Clock12}
	switch dates {
	case DatesMonth:
		s.Dates = MonthDay
	case DatesISO:
		s.Dates = ISO
	}
	return s
}

// Clock prints the time of day: 19:05 or 7:05 pm. An hour that the clock shows
// twice, on the night that it is put back, has its zone behind it.
func (s Times) Clock(t time.Time) string { return t.Format(s.clockForm(t, "15:04", "3:04 pm")) }

// Seconds is Clock to the second.
func (s Times) Seconds(t time.Time) string { return t.Format(s.clockForm(t, "15:04:05", "3:04:05 pm")) }

func (s Times) clockForm(t time.Time, form, twelve string) string {
	if s.Twelve {
		form = twelve
	}
	if shownTwice(t) {
		form += " MST"
	}
	return form
}

// Date prints the day: 2 Jan.
func (s Times) Date(t time.Time) string {
	return t.Format([...]string{"2 Jan", "Jan 2", time.DateOnly}[s.Dates])
}

// FullDate prints the day with its year: 2 Jan 2006.
func (s Times) FullDate(t time.Time) string {
	return t.Format([...]string{"2 Jan 2006", "Jan 2, 2006", time.DateOnly}[s.Dates])
}

// DateClock prints the day and the time of day: 2 Jan 19:05.
func (s Times) DateClock(t time.Time) string { return s.Date(t) + " " + s.Clock(t) }

// DayClock prints them after the day of the week: Mon 2 Jan 19:05.
func (s Times) DayClock(t time.Time) string { return t.Format("Mon ") + s.DateClock(t) }

// FullClock prints the day, its year and the time of day: 2 Jan 2006 19:05.
func (s Times) FullClock(t time.Time) string { return s.FullDate(t) + " " + s.Clock(t) }

// widest is a time that takes as much room as any outside the hour that is
// shown twice.
var widest = time.Date(2026, time.December, 28, 22, 58, 0, 0, time.UTC)

// DateClockW is how many columns DateClock takes at the most, for lists.
func (s Times) DateClockW() int { return len(s.DateClock(widest)) }

// DayClockW is how many columns DayClock takes at the most.
func (s Times) DayClockW() int { return len(s.DayClock(widest)) }

// FullClockW is how many columns FullClock takes at the most.
func (s Times) FullClockW() int { return len(s.FullClock(widest)) }

// shownTwice reports whether a clock in t's zone shows its time of day a second
// time, before or after t. No zone is put back by more than a day.
func shownTwice(t time.Time) bool {
	_, here := t.Zone()
	for _, far := range []time.Duration{-24 * time.Hour, 24 * time.Hour} {
		_, there := t.Add(far).Zone()
		if there == here {
			continue
		}
		again := t.Add(time.Duration(here-there) * time.Second)
		if _, is := again.Zone(); is == there {
			return true
		}
	}
	return false
}

// ParseClock reads a time of day, as 19:05, 7:05pm, 7:05 pm or 7pm.
func ParseClock(text string) (hour, minute int, err error) {
	s := strings.ToLower(strings.TrimSpace(text))
	s = strings.NewReplacer("a.m.", "am", "p.m.", "pm", " am", "am", " pm", "pm").Replace(s)
	forms := []string{"15:04"}
	if hour := strings.TrimLeft(s, "0"); strings.HasSuffix(s, "m") && hour[0] >= '1' && hour[0] <= '9' {
		forms = []string{"3:04pm", "3pm"}
	}
	for _, form := range forms {
		if t, err := time.Parse(form, s); err == nil {
			return t.Hour(), t.Minute(), nil
		}
	}
	return 0, 0, &Error{
		Read:    quote(text) + " is not a time of day",
		Allowed: "hours go to 23 and minutes to 59, or hours from 1 to 12 with am or pm",
		Do:      "write it like 07:05 or 7:05pm",
	}
}
