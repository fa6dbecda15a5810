package cli

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"time"

	"bathside/internal/bath"
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
func (n needsFlag) needs(cat *catalog.Catalog, now time.Time, times units.Times) ([]load.Need, error) {
	var all []load.Need
	for _, f := range n {
		byID, err := counts(cat, f.what)
		if err != nil {
			return nil, err
		}
		var by units.Span
		if f.by != "" {
			at, err := nextAt(f.by, now, times)
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
func nextAt(text string, now time.Time, times units.Times) (time.Time, error) {
	if _, _, err := units.ParseClock(text); err == nil {
		return nextClock(text, now, times)
	}
	t, err := bath.ParseWhen(text, now, times)
	if refusal := new(bath.Refusal); errors.As(err, &refusal) && refusal.ID == "when" {
		return t, refuse("input", "%s is not a time: write it like 04:00, 4:00am or 2026-03-02 04:00", quote(text))
	}
	if err == nil && !t.After(now) {
		return t, refuse("input", "%s is over: it is %s now; give a time to come, like 04:00", quote(text), times.FullClock(now))
	}
	return t, err
}

// nextClock looks two days ahead: the clock may be put forward over it tomorrow.
func nextClock(clock string, now time.Time, times units.Times) (t time.Time, err error) {
	for days := range 3 {
		t, err = bath.ParseWhen(now.AddDate(0, 0, days).Format(time.DateOnly)+" "+clock, now, times)
		if err == nil && t.After(now) {
			return t, nil
		}
	}
	return t, err
}
