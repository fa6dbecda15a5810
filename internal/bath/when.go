package bath

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/units"
)

// ParseWhen reads when something happened, as people write it: "07:05" or
// "7:05pm" (the last time it was that), "yesterday 07:05", "tue 07:05" (the last
// Tuesday), "2 Jan 07:05" or "Jan 2 07:05" (the last such day), "2026-03-01
// 07:05", RFC 3339, "20min ago", "now". Times without a zone are in now's. The
// result is never after now, except where a date with its year, or today, is
// spelled out. A time that the clock skipped when it was put forward is
// refused; one that it showed twice is the last that has been. times is how the
// refusal shows it.
func ParseWhen(text string, now time.Time, times units.Times) (time.Time, error) {
	s := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	if s == "" || s == "now" {
		return now, nil
	}
	if t, err := time.Parse(time.RFC3339, strings.ToUpper(s)); err == nil {
		return t.In(now.Location()), nil
	}
	if t, err := time.Parse("2006-01-02 15:04:05", strings.Replace(s, "t", " ", 1)); err == nil {
		return onDate(t, now, times)
	}
	if past, ok := strings.CutSuffix(s, " ago"); ok {
		if back, err := units.Parse[units.Span](past); err == nil {
			return now.Add(-back.Duration()), nil
		}
	} else if walls, ok := wallTimes(s, now); ok {
		return lastOf(walls, now, times)
	}
	return time.Time{}, refuse("when", "%q is not a time: write 07:05, 7:05pm, yesterday 07:05, tue 07:05, 2026-03-01 07:05 or 20min ago", short(clean(text)))
}

// wallTimes reads a time of day with or without a day before it, and gives what
// may be meant, the likeliest first, as a clock on the wall shows it, in UTC.
func wallTimes(s string, now time.Time) ([]time.Time, bool) {
	day, clock := cutClock(s)
	hour, minute, err := units.ParseClock(clock)
	if err != nil {
		return nil, false
	}
	y, m, d := now.Date()
	ago := func(days ...int) (walls []time.Time, ok bool) {
		for _, back := range days {
			walls = append(walls, time.Date(y, m, d-back, hour, minute, 0, 0, time.UTC))
		}
		return walls, true
	}
	switch day {
	case "":
		return ago(0, 1)
	case "today":
		return ago(0)
	case "yesterday":
		return ago(1)
	}
	for w := time.Sunday; w <= time.Saturday; w++ {
		if len(day) >= 3 && strings.HasPrefix(strings.ToLower(w.String()), day) {
			back := (int(now.Weekday()-w) + 7) % 7
			return ago(back, back+7)
		}
	}
	return onDay(day, y, time.Duration(hour)*time.Hour+time.Duration(minute)*time.Minute)
}

// cutClock parts a day from the time of day behind it; "7:05 pm" has no day.
func cutClock(s string) (day, clock string) {
	s = strings.NewReplacer(" am", "am", " pm", "pm", " a.m.", "am", " p.m.", "pm").Replace(s)
	i := strings.LastIndex(s, " ")
	if i < 0 {
		if date, clock, ok := strings.Cut(s, "t"); ok && strings.Count(date, "-") == 2 { // 2026-03-01T07:05
			return date, clock
		}
		return "", s
	}
	return s[:i], s[i+1:]
}

// onDay reads a date. One without its year is that of year, or of the year
// before.
func onDay(day string, year int, clock time.Duration) ([]time.Time, bool) {
	day = strings.ReplaceAll(day, ",", "")
	for _, form := range []string{dateForm, "2 Jan 2006", "Jan 2 2006"} {
		if t, err := time.Parse(form, day); err == nil {
			return []time.Time{t.Add(clock)}, true
		}
	}
	var walls []time.Time
	for _, y := range []int{year, year - 1} {
		for _, form := range []string{"2 Jan 2006", "Jan 2 2006"} {
			if t, err := time.Parse(form, fmt.Sprintf("%s %d", day, y)); err == nil {
				walls = append(walls, t.Add(clock))
			}
		}
	}
	return walls, len(walls) > 0
}

// lastOf is the last time before now that the clock showed one of walls; where
// there is none, the first of them, which is then to come.
func lastOf(walls []time.Time, now time.Time, times units.Times) (time.Time, error) {
	for _, wall := range walls {
		t, err := onDate(wall, now, times)
		if err != nil || !t.After(now) {
			return t, err
		}
	}
	return onDate(walls[0], now, times)
}

// onDate is when the clock in now's zone showed the date and time of wall.
func onDate(wall, now time.Time, say units.Times) (time.Time, error) {
	times := shown(wall, now.Location())
	if len(times) == 0 {
		return time.Time{}, refuse("skipped", "there was no %s: the clock was put forward over it; give the time on the wall", say.DayClock(wall))
	}
	t := times[0]
	for _, later := range times[1:] {
		if !later.After(now) {
			t = later
		}
	}
	return t, nil
}

// shown lists the instants at which a clock in loc shows the date and time of
// wall, in order: none where it was put forward, two where it was put back.
func shown(wall time.Time, loc *time.Location) (times []time.Time) {
	wall = wall.UTC()
	_, before := wall.Add(-24 * time.Hour).In(loc).Zone()
	_, after := wall.Add(24 * time.Hour).In(loc).Zone()
	offsets := []int{max(before, after)}
	if before != after {
		offsets = append(offsets, min(before, after))
	}
	for _, east := range offsets {
		t := wall.Add(-time.Duration(east) * time.Second).In(loc)
		if _, is := t.Zone(); is == east {
			times = append(times, t)
		}
	}
	return times
}
