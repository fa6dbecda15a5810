package roster

import (
	"fmt"
	"strings"
	"time"
)

// Parse reads a pattern as a station writes it:
//
//	24/48@07:00              one day on, two off, change at 07:00
//	48/96@08:00              two days on, four off
//	kelly@07:00              nine days, ACABABCBC
//	kelly@07:00,A=2026-03-02 the same, its cycle beginning on that date
//	drill:tue@19:00          volunteers, drill on Tuesday at 19:00
//
// Without a date the cycle begins on 2026-01-01. Platoon A is on duty on the
// date, and where its cycle gives it several days, the date is the first of
// them. Case and blanks do not matter. The empty string is the zero Pattern.
//
// An error is one sentence for the crew: what was read, what is allowed.
func Parse(s string) (Pattern, error) {
	text := strings.ToLower(strings.TrimSpace(s))
	if text == "" {
		return Pattern{}, nil
	}
	if len(text) > longest {
		return Pattern{}, fmt.Errorf("shift pattern %.20q has %d letters: no pattern has more than %d; write it like 24/48@07:00", text, len([]rune(text)), longest)
	}
	p, err := parse(text)
	if err != nil {
		return Pattern{}, fmt.Errorf("shift pattern %q: %w", s, err)
	}
	return p, nil
}

// longest is more than any pattern takes, so that a refusal stays one line.
const longest = 60

func parse(text string) (Pattern, error) {
	turn, anchor, anchored := strings.Cut(text, ",")
	who, hour, timed := strings.Cut(turn, "@")
	who, day, nightly := strings.Cut(strings.TrimSpace(who), ":")

	p := Pattern{name: who}
	if who != drillName && p.cycle() == "" {
		return p, fmt.Errorf("%q is not a pattern we know: write 24/48, 48/96, kelly or drill:tue, then @ and the time, as in 24/48@07:00", who)
	}
	if !timed {
		return p, fmt.Errorf("the time is missing: add @ and the time, as in %s@07:00", who)
	}
	var err error
	if p.hour, err = parseClock(strings.TrimSpace(hour)); err != nil {
		return p, err
	}
	if who == drillName {
		if anchored {
			return p, fmt.Errorf("a drill night has no platoon A: leave out %q", ","+anchor)
		}
		p.night, err = parseWeekday(day)
		return p, err
	}
	if nightly {
		return p, fmt.Errorf("only a drill has a weekday: leave out %q", ":"+day)
	}
	p.first = firstDay
	if anchored {
		p.first, err = parseAnchor(strings.TrimSpace(anchor))
	}
	return p, err
}

func parseClock(s string) (clock, error) {
	t, err := time.Parse("15:04", s)
	if err != nil {
		return 0, fmt.Errorf("the time %q is not on the clock: write 00:00 to 23:59, as in 07:00", s)
	}
	return clock(t.Hour()*60 + t.Minute()), nil
}

func parseWeekday(s string) (time.Weekday, error) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if s == dayName(d) {
			return d, nil
		}
	}
	return 0, fmt.Errorf("the drill day %q is not a weekday: write sun, mon, tue, wed, thu, fri or sat, as in drill:tue@19:00", s)
}

func parseAnchor(s string) (date, error) {
	day, ok := strings.CutPrefix(s, "a=")
	t, err := time.Parse(time.DateOnly, day)
	if !ok || err != nil {
		return 0, fmt.Errorf("%q is not a day on which platoon A works: write A= and a date, as in A=2026-01-01", s)
	}
	return dateOf(t), nil
}
