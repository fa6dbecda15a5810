package cli

import (
	"strings"
	"time"

	"bathside/internal/units"
)

// parseAt reads when something happened, as people say it at the bath. now is
// in the station's zone. A clock time alone is the last one that has been.
func parseAt(text string, now time.Time) (time.Time, error) {
	text = strings.TrimSpace(text)
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, nil
	}
	if ago, ok := strings.CutSuffix(text, " ago"); ok {
		return parseAgo(ago, now)
	}
	if clock, ok := strings.CutPrefix(text, "yesterday "); ok {
		return onDay(text, now.AddDate(0, 0, -1), clock, now.Location())
	}
	if day, clock, ok := cutDate(text); ok {
		return onDay(text, day, clock, now.Location())
	}
	t, err := onDay(text, now, text, now.Location())
	if err == nil && t.After(now) {
		return onDay(text, now.AddDate(0, 0, -1), text, now.Location())
	}
	return t, err
}

func parseAgo(text string, now time.Time) (time.Time, error) {
	span, err := units.Parse[units.Span](text)
	if err != nil {
		return time.Time{}, err
	}
	return now.Add(-span.Duration()), nil
}

// cutDate splits "2026-03-01 07:05".
func cutDate(text string) (day time.Time, clock string, ok bool) {
	date, clock, ok := strings.Cut(strings.Replace(text, "T", " ", 1), " ")
	if !ok {
		return time.Time{}, "", false
	}
	day, err := time.Parse(time.DateOnly, date)
	return day, strings.TrimSpace(clock), err == nil
}

// onDay is the clock time on that day in zone. A time that the clock skipped
// when it was put forward is refused: it was never on any wall.
func onDay(text string, day time.Time, clock string, zone *time.Location) (time.Time, error) {
	c, err := time.Parse("15:04", strings.TrimSpace(clock))
	if err != nil {
		return time.Time{}, refuse("input", "%s is not a time: write it like 07:05, yesterday 07:05, 2026-03-01 07:05 or 20min ago", quote(text))
	}
	y, m, d := day.Date()
	t := time.Date(y, m, d, c.Hour(), c.Minute(), 0, 0, zone)
	if t.Hour() != c.Hour() || t.Minute() != c.Minute() {
		return time.Time{}, refuse("input", "there was no %s on %s: the clock was put forward; give the time on the wall", clock, t.Format("2 Jan"))
	}
	return t, nil
}
