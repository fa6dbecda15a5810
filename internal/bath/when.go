package bath

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

// ParseWhen reads when something happened, as people write it: "07:05" (the
// last time it was that), "yesterday 07:05", "tue 07:05" (the last Tuesday),
// "2026-03-01 07:05", RFC 3339, "2h ago", "now". Times without a zone are in
// now's. The result is never after now, except where a date, or today, is
// spelled out. A time that the clock skipped when it was put forward is
// refused; one that it showed twice is the last that has been.
func ParseWhen(text string, now time.Time) (time.Time, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	if s == "" || s == "now" {
		return now, nil
	}
	if t, err := time.Parse(time.RFC3339, strings.ToUpper(s)); err == nil {
		return t.In(now.Location()), nil
	}
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05"} {
		if wall, err := time.Parse(layout, strings.ToUpper(s)); err == nil {
			return onDate(wall, now)
		}
	}
	if m := ago.FindStringSubmatch(s); m != nil {
		n, _ := strconv.Atoi(m[1])
		return now.Add(-time.Duration(n) * agoUnit[m[2][0]]), nil
	}
	if days, clock, ok := cutDays(s, now); ok {
		return lastOn(days, clock, now)
	}
	return time.Time{}, refuse("when", "%q is not a time: write 07:05, yesterday 07:05, tue 07:05 or 2026-03-01 07:05", short(clean(text)))
}

var ago = regexp.MustCompile(`^(\d{1,3}) ?(m|min|minutes?|h|hours?|d|days?) ago$`)

var agoUnit = map[byte]time.Duration{'m': time.Minute, 'h': time.Hour, 'd': 24 * time.Hour}

// cutDays reads "07:05" with or without a day before it, and gives the days
// that may be meant, as how many days ago, the likeliest first.
func cutDays(s string, now time.Time) (days []int, clock time.Time, ok bool) {
	word, hm, two := strings.Cut(s, " ")
	if !two {
		word, hm = "", s
	}
	clock, err := time.Parse("15:04", strings.TrimSpace(hm))
	if err != nil {
		return nil, clock, false
	}
	switch word {
	case "":
		return []int{0, 1}, clock, true
	case "today":
		return []int{0}, clock, true
	case "yesterday":
		return []int{1}, clock, true
	}
	for d := time.Sunday; d <= time.Saturday; d++ {
		if len(word) >= 3 && strings.HasPrefix(strings.ToLower(d.String()), word) {
			back := (int(now.Weekday()-d) + 7) % 7
			return []int{back, back + 7}, clock, true
		}
	}
	return nil, clock, false
}

// lastOn is the last time before now that the clock showed clock on one of the
// days; where there is none, that of the first day, which is then today's.
func lastOn(days []int, clock, now time.Time) (time.Time, error) {
	y, m, d := now.Date()
	on := func(back int) time.Time { return time.Date(y, m, d-back, clock.Hour(), clock.Minute(), 0, 0, time.UTC) }
	for _, back := range days {
		t, err := onDate(on(back), now)
		if err != nil || !t.After(now) {
			return t, err
		}
	}
	return onDate(on(days[0]), now)
}

// onDate is when the clock in now's zone showed the date and time of wall.
func onDate(wall, now time.Time) (time.Time, error) {
	times := shown(wall, now.Location())
	if len(times) == 0 {
		return time.Time{}, refuse("when", "there was no %s: the clock was put forward over it; give the time on the wall", day(wall))
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
