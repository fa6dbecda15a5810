package cli

import (
	"maps"
	"slices"
	"strings"
	"time"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// needsFlag is --need mask=4,pack=4@04:00, given several times.
type needsFlag []needFlag

type needFlag struct {
	what []nameValue
	by   string // "" is as soon as can be
}

func (n *needsFlag) String() string { return "" }
func (n *needsFlag) Type() string   { return "mask=4,pack=4@04:00" }

func (n *needsFlag) Set(text string) error {
	list, by, at := strings.Cut(text, "@")
	if by = strings.TrimSpace(by); at && by == "" {
		return refuse("input", "%s has no time after the @: write it like %s, or without the @ for as soon as can be", quote(text), n.Type())
	}
	what, err := pairs(list, n.Type())
	if err != nil {
		return err
	}
	*n = append(*n, needFlag{what, by})
	return nil
}

// needs are those given, with their times as spans from now.
func (n needsFlag) needs(cat *catalog.Catalog, now time.Time) ([]load.Need, error) {
	var all []load.Need
	for _, f := range n {
		byID, err := counts(cat, f.what)
		if err != nil {
			return nil, err
		}
		var by units.Span
		if f.by != "" {
			at, err := nextAt(f.by, now)
			if err != nil {
				return nil, err
			}
			by = units.SpanOf(at.Sub(now))
		}
		for _, id := range slices.Sorted(maps.Keys(byID)) {
			all = append(all, load.Need{Item: id, N: byID[id], By: by})
		}
	}
	return all, nil
}

// nextAt is the next time that the clock shows so, or a time with its date.
func nextAt(text string, now time.Time) (time.Time, error) {
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, mustCome(text, t, now)
	}
	if day, clock, ok := cutDate(text); ok {
		t, err := onDay(text, day, clock, now.Location())
		if err != nil {
			return t, err
		}
		return t, mustCome(text, t, now)
	}
	if _, err := time.Parse("15:04", text); err != nil {
		return time.Time{}, refuse("input", "%s is not a time: write it like 04:00 or 2026-03-02 04:00", quote(text))
	}
	for _, days := range []int{0, 1} {
		t, err := onDay(text, now.AddDate(0, 0, days), text, now.Location())
		if err == nil && t.After(now) {
			return t, nil
		}
	}
	return onDay(text, now.AddDate(0, 0, 2), text, now.Location()) // the clock is put forward over it tomorrow
}

func mustCome(text string, t, now time.Time) error {
	if t.After(now) {
		return nil
	}
	return refuse("input", "%s is over: it is %s now; give a time to come, like 04:00", quote(text), now.Format("2006-01-02 15:04"))
}
