package roster

import "time"

// Shift is one turn of duty. It holds Start and every instant up to, but not,
// End, where the next shift starts.
type Shift struct {
	// Platoon is "A", "B" or "C", or "" for one crew or volunteers.
	Platoon    string
	Start, End time.Time
}

// At is the shift on duty at t; t's location must be the site's zone, and the
// shift's times are in it too. A 48-hour turn is one shift of two duty days.
// Where there are no platoons, each duty day is a shift of its own.
//
// Shifts change by the clock on the wall: one of "24 hours" lasts 23 or 25 when
// the clock is changed. A change of shift at a time the clock skips is at the
// skip; at a time it shows twice, it is at the first.
func (p Pattern) At(t time.Time) Shift {
	first := p.dayOf(t)
	last := first
	platoon := p.platoon(first)
	if platoon != "" {
		for p.platoon(first-1) == platoon {
			first--
		}
		for p.platoon(last+1) == platoon {
			last++
		}
	}
	return Shift{
		Platoon: platoon,
		Start:   p.start(first, t.Location()),
		End:     p.start(last+1, t.Location()),
	}
}

// Next is the shift that relieves the one on duty at t.
func (p Pattern) Next(t time.Time) Shift {
	return p.At(p.At(t).End)
}

// Day is the duty day t belongs to: it begins at the change of shift, at 07:00
// where there are no platoons, and holds start but not end. Zone and changes of
// the clock are as for At.
func (p Pattern) Day(t time.Time) (start, end time.Time) {
	d := p.dayOf(t)
	return p.start(d, t.Location()), p.start(d+1, t.Location())
}

// NextDrill is the first drill that begins at or after t, in t's zone. It is
// false where the pattern has no drill night.
func (p Pattern) NextDrill(t time.Time) (time.Time, bool) {
	if p.name != drillName {
		return time.Time{}, false
	}
	d := dateOf(t)
	for d.weekday() != p.night {
		d++
	}
	drill := d.at(p.hour, t.Location())
	if drill.Before(t) {
		drill = (d + 7).at(p.hour, t.Location())
	}
	return drill, true
}

func (p Pattern) start(d date, loc *time.Location) time.Time {
	return d.at(p.begins(), loc)
}

// dayOf is the calendar day on which the duty day of t began.
func (p Pattern) dayOf(t time.Time) date {
	// From tomorrow on: a clock put back over midnight can show yesterday's
	// date when tomorrow's duty has begun.
	d := dateOf(t) + 1
	for p.start(d, t.Location()).After(t) {
		d--
	}
	return d
}
