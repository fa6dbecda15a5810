package demo

import (
	"fmt"
	"math/rand/v2"
	"time"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/roster"
	"bathside/internal/units"
)

// The made-up years of LargeEntries. A day has linesADay lines, whatever else
// is in it.
const (
	linesADay    = 15
	closingLines = 3 // filter, heater off, handover
	fewest       = 100
	largeZone    = "America/Denver"
	largeShift   = "24/48@07:00"
	largeBath    = "main"
)

// LargeEntries is the log book of BuildLarge without a file: n entries, 100 at
// least, in fills of 60 to 90 days. It is deterministic.
func LargeEntries(n int, now time.Time, cat *catalog.Catalog) ([]bath.Entry, error) {
	if n < fewest {
		return nil, fmt.Errorf("%d lines are too few: at least %d", n, fewest)
	}
	l, err := newLedger(n, now, cat)
	if err != nil {
		return nil, err
	}
	l.setUp()
	for fill := 1; l.left() > 0; fill++ {
		days := 60 + l.chance.IntN(31)
		l.fillDay(fill)
		for age := 1; age < days && l.left() > 0; age++ {
			l.day(age, days)
		}
	}
	return l.entries, nil
}

// ledger writes one line after the other, and stops when it is full.
type ledger struct {
	n       int
	entries []bath.Entry
	chance  *rand.Rand
	shifts  roster.Pattern
	loads   [][]bath.Load // masks first
	start   time.Time     // the duty day that is being written
	lines   int           // in that day so far
}

func newLedger(n int, now time.Time, cat *catalog.Catalog) (*ledger, error) {
	zone, err := time.LoadLocation(largeZone)
	if err != nil {
		return nil, err
	}
	shifts, err := roster.Parse(largeShift)
	if err != nil {
		return nil, err
	}
	loads, err := largeLoads(cat)
	if err != nil {
		return nil, err
	}
	today, _ := shifts.Day(now.In(zone))
	days := 1 + (n-1)/linesADay // setting up takes one day's lines
	return &ledger{
		n: n, entries: make([]bath.Entry, 0, n), loads: loads, shifts: shifts,
		chance: rand.New(rand.NewPCG(1, 1)), start: today.AddDate(0, 0, -days),
	}, nil
}

func (l *ledger) left() int { return l.n - len(l.entries) }

// next begins the duty day after.
func (l *ledger) next() { l.start, l.lines = l.start.AddDate(0, 0, 1), 0 }

// write adds a line by somebody of that role who is on duty, forty minutes
// after the one before.
func (l *ledger) write(role bath.Role, body bath.Body) {
	if l.left() == 0 {
		return
	}
	l.lines++
	e := bath.Entry{Seq: uint64(len(l.entries)) + 1, At: l.start.Add(time.Duration(l.lines) * 40 * time.Minute), Body: body}
	e.ID, e.Logged = lineID(e.At, e.Seq), e.At.Add(20*time.Second)
	e.By = person(role, l.shifts.At(e.At).Platoon)
	if spec, _ := bath.SpecOf(e.Kind()); spec.Scope != bath.OfStation || e.Kind() == "tank" {
		e.Bath = largeBath
	}
	l.entries = append(l.entries, e)
}

// person is the one of a platoon who holds a role.
func person(role bath.Role, platoon string) string { return string(role) + " " + platoon }

// setUp is the first day: a roster, a tank.
func (l *ledger) setUp() {
	own := l.shifts.At(l.start).Platoon
	l.write(bath.Officer, &bath.Member{Name: person(bath.Officer, own), Role: bath.Officer, Platoon: own})
	for _, platoon := range []string{"A", "B", "C"} {
		for _, role := range []bath.Role{bath.Officer, bath.KeyHolder, bath.Crew} {
			if name := person(role, platoon); name != person(bath.Officer, own) {
				l.write(bath.Officer, &bath.Member{Name: name, Role: role, Platoon: platoon})
			}
		}
	}
	l.write(bath.Officer, &bath.Setting{Station: "Ten years", Zone: largeZone, Shift: l.shifts.String(), Units: "us"})
	set := units.Fahrenheit(120)
	l.write(bath.Officer, &bath.Tank{
		Name: "Bath", VolumeL: 260, LowL: 205, HeaterW: 6000, SetC: &set,
		Sewer: "permission 1", Product: "alkaline soap", Ratio: 40, Strongest: 20,
	})
	low, high, most := units.PH(5.5), units.PH(10), units.Fahrenheit(104)
	l.write(bath.Officer, &bath.Discharge{
		Stream: bath.StreamLiquid, Route: bath.RouteSewer, Number: "permission 1", From: "the sewer district", Title: "use of sewers", Dated: "2010-01-04",
		PHLow: &low, PHHigh: &high, MaxC: &most,
	})
	for _, duty := range []string{bath.DutyInspection, bath.DutyFoil, bath.DutyEyewash} {
		l.write(bath.Crew, &bath.Duty{What: duty})
	}
	l.write(bath.Crew, &bath.Handover{Note: "the log book begins"})
	l.next()
}

// largeLoads is what is washed in turn, with the limits of cat, if any.
func largeLoads(cat *catalog.Catalog) ([][]bath.Load, error) {
	loads := [][]bath.Load{
		{{Item: "mask", Count: 4}}, {{Item: "cylinder", Count: 2}}, {{Item: "pack", Count: 2}},
		{{Item: "tool", Count: 4}, {Item: "nozzle", Count: 2}},
	}
	if cat == nil {
		return loads, nil
	}
	for _, load := range loads {
		for i, l := range load {
			item, err := cat.Item(l.Item)
			if err != nil {
				return nil, err
			}
			hottest := item.Limit.Hottest()
			load[i] = bath.Load{
				Item: item.ID, Count: l.Count, Name: item.Name, LimitC: &hottest, Limit: item.Limit.Printed,
				Longest: units.Minutes(item.Minutes.Longest),
			}
		}
	}
	return loads, nil
}
