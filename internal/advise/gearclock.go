package advise

import (
	"fmt"
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Clock is a date that a piece of gear runs against.
type Clock struct {
	ID     string    // retire, ends, requalify, inspect, clean
	Due    time.Time // from then on it is over; zero where nothing is known to count from
	Over   bool
	Say    string // "to be retired by Mar 2029"
	Source string

	warn time.Time // from then on it is spoken of
}

// Clocks lists what a piece runs against at now, what is over first.
func Clocks(p bath.Piece, now time.Time, times units.Times) (out []Clock) {
	for _, c := range []*Clock{lifeClock(p, now), retireClock(p, now), requalifyClock(p, now), inspectClock(p, now, times), cleanClock(p, now, times)} {
		if c != nil {
			out = append(out, *c)
		}
	}
	slices.SortStableFunc(out, func(a, b Clock) int {
		switch {
		case a.Over == b.Over:
			return a.Due.Compare(b.Due)
		case a.Over:
			return -1
		}
		return 1
	})
	return out
}

// How long before a month ends it is spoken of. A retirement is warned of 12
// months ahead; the rest is common practice, no source.
const (
	warnLife      = 12
	warnRequalify = 3
)

func monthClock(id string, m bath.Month, warn int, say, source string, now time.Time) *Clock {
	due := m.End(now.Location())
	return &Clock{ID: id, Due: due, Over: m.Over(now), Say: say + " " + m.Say(), Source: source, warn: due.AddDate(0, -warn, 0)}
}

func retireClock(p bath.Piece, now time.Time) *Clock {
	m, ok := p.RetireBy()
	if !ok {
		return nil
	}
	return monthClock("retire", m, warnLife, "to be retired by", "NFPA 1851: 10 years from the month of manufacture, by a public summary", now)
}

func lifeClock(p bath.Piece, now time.Time) *Clock {
	m, ok := p.LifeEnds()
	if !ok {
		return nil
	}
	return monthClock("ends", m, warnLife, "life ends with", "its own record; wrapped cylinders 15 years, by a fire department's manual", now)
}

func requalifyClock(p bath.Piece, now time.Time) *Clock {
	m, ok := p.RequalifyBy()
	if !ok {
		return nil
	}
	return monthClock("requalify", m, warnRequalify, "to be requalified by", "49 CFR 180.209 Table 1; its own permit comes first", now)
}

// inspectClock: masks for emergency use are inspected at least monthly.
func inspectClock(p bath.Piece, now time.Time, times units.Times) *Clock {
	if p.Item != "mask" {
		return nil
	}
	c := &Clock{ID: "inspect", Over: true, Say: "no inspection is logged", Source: "monthly: 29 CFR 1910.134(h)(3)(i), by WAC 296-307-61015"}
	if p.Inspected != nil {
		last := p.Inspected.In(now.Location())
		c.Due = last.AddDate(0, 1, 0)
		c.Over, c.Say = !now.Before(c.Due), "to be inspected by "+times.Date(c.Due)
		c.warn = c.Due.AddDate(0, 0, -7)
	}
	return c
}

// Of an element's cleanings, at least two fall in any 12 months; the reminder
// comes six months after the last (NFPA 1851, by Horn et al., Fire Technology
// 2021).
const (
	cleaningsLeast  = 2
	cleaningsWithin = 365 * 24 * time.Hour
	cleaningEvery   = 6 // months
)

// Cleanings counts the proper cleanings of the 365 days before now: 0, 1, or 2
// for two or more.
func Cleanings(p bath.Piece, now time.Time) (n int) {
	for _, t := range p.Cleaned {
		if now.Sub(t) < cleaningsWithin {
			n++
		}
	}
	return n
}

// cleanClock is over where fewer than two cleanings fall in the last 12 months.
// A piece that has been washed once only is not that long in the book: it is
// reminded of.
func cleanClock(p bath.Piece, now time.Time, times units.Times) *Clock {
	if !p.Element() {
		return nil
	}
	c := &Clock{ID: "clean", Say: "no cleaning is logged", Source: "NFPA 1851: twice in any 12 months at least, by Horn et al. 2021"}
	n := len(p.Cleaned)
	if n == 0 {
		c.warn = now
		return c
	}
	c.Due = p.Cleaned[n-1].In(now.Location()).AddDate(0, cleaningEvery, 0)
	c.warn, c.Say = c.Due, "to be cleaned by "+times.FullDate(c.Due)
	if got := Cleanings(p, now); got < min(n, cleaningsLeast) {
		c.Over, c.Say = true, fmt.Sprintf("%d cleaned in the last 12 months, 2 at least", got)
	}
	return c
}
