package advise

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bathside/internal/bath"
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
func Clocks(p bath.Piece, now time.Time) (out []Clock) {
	for _, c := range []*Clock{lifeClock(p, now), retireClock(p, now), requalifyClock(p, now), inspectClock(p, now), cleanClock(p, now)} {
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
func inspectClock(p bath.Piece, now time.Time) *Clock {
	if p.Item != "mask" {
		return nil
	}
	c := &Clock{ID: "inspect", Over: true, Say: "no inspection is logged", Source: "monthly: 29 CFR 1910.134(h)(3)(i), by WAC 296-307-61015"}
	if p.Inspected != nil {
		last := p.Inspected.In(now.Location())
		c.Due = last.AddDate(0, 1, 0)
		c.Over, c.Say = !now.Before(c.Due), "to be inspected by "+c.Due.Format("2 Jan")
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
func cleanClock(p bath.Piece, now time.Time) *Clock {
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
	c.warn, c.Say = c.Due, "to be cleaned by "+c.Due.Format("2 Jan 2006")
	if got := Cleanings(p, now); got < min(n, cleaningsLeast) {
		c.Over, c.Say = true, fmt.Sprintf("%d cleaned in the last 12 months, 2 at least", got)
	}
	return c
}

// clockOrders are the orders that clocks give.
var clockOrders = []struct {
	id, say string
	kind    bath.Kind
}{
	{"ends", "Take out of service: ", "gear"}, {"retire", "Retire ", "gear"}, {"requalify", "Have requalified: ", "gear"}, {"inspect", "Inspect ", "inspect"}, {"clean", "Wash ", ""},
}

// gearClocks: the dates of tagged gear, one action a date.
func gearClocks(x *Snapshot) (out []Action) {
	due, say := map[string][]string{}, map[string]string{}
	over := map[string]bool{}
	for _, p := range x.State.Gear {
		if p.Gone != "" {
			continue
		}
		for _, c := range Clocks(p, x.Now) {
			if !c.Over && x.Now.Before(c.warn) {
				continue
			}
			if say[c.ID] == "" || c.Over && !over[c.ID] {
				say[c.ID] = fmt.Sprintf("%s: %s (%s)", p.Tag, c.Say, c.Source)
			}
			due[c.ID], over[c.ID] = append(due[c.ID], p.Tag), over[c.ID] || c.Over
		}
	}
	for _, o := range clockOrders {
		if tags := due[o.id]; len(tags) > 0 {
			a := Action{ID: "gear-" + o.id, Urgency: Soon, Kind: o.kind, Say: o.say + fewTags(tags), Why: say[o.id], Preset: clockPreset(o.kind, tags)}
			if over[o.id] {
				a.Urgency = Today
			}
			out = append(out, a)
		}
	}
	return out
}

func clockPreset(kind bath.Kind, tags []string) map[string]string {
	switch kind {
	case "inspect":
		return map[string]string{"tags": strings.Join(tags, ", ")}
	case "gear":
		return map[string]string{"tag": tags[0]}
	}
	return nil
}

// fewTags names three tags at the most.
func fewTags(tags []string) string {
	if n := len(tags); n > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(tags[:3], ", "), n-3)
	}
	return strings.Join(tags, ", ")
}

// GearLine is a piece of gear as a list shows it.
type GearLine struct {
	bath.Piece
	Where  string
	Clocks []Clock
}

// Gear lists the tagged gear of the station, by item type and tag.
func (x *Snapshot) Gear() []GearLine {
	var out []GearLine
	for _, p := range x.State.Gear {
		out = append(out, GearLine{p, x.State.Where(p), Clocks(p, x.Now)})
	}
	slices.SortStableFunc(out, func(a, b GearLine) int {
		if c := strings.Compare(a.Item, b.Item); c != 0 {
			return c
		}
		return naturally(a.Tag, b.Tag)
	})
	return out
}

// naturally compares tags as people count: M-2 before M-12.
func naturally(a, b string) int {
	head, m, okA := endNumber(a)
	other, n, okB := endNumber(b)
	if okA && okB && head == other {
		return m - n
	}
	return strings.Compare(a, b)
}

// endNumber parts a tag that ends with a number.
func endNumber(s string) (head string, n int, ok bool) {
	i := len(s)
	for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
		i--
	}
	if i == len(s) || len(s)-i > 9 {
		return s, 0, false
	}
	for _, r := range s[i:] {
		n = 10*n + int(r-'0')
	}
	return s[:i], n, true
}
