package demo

import (
	"encoding/binary"
	"fmt"
	"time"

	"github.com/oklog/ulid/v2"

	"bathside/internal/bath"
	"bathside/internal/roster"
	"bathside/internal/station"
)

// stagedDay is a duty day set in time, or a part of one: what to record, and
// when it was.
type stagedDay struct {
	ago     int
	drafts  []station.Draft
	written time.Time // the moment of writing: just after the last line
}

// stager sets lines in time, one after the other.
type stager struct {
	zone    *time.Location
	pattern roster.Pattern
	bath    string
	today   time.Time // the change of shift that the duty day of now began with
	seq     uint64    // lines so far: the next one's place in the log book less one
	labels  map[string]uint64
}

// stage sets the story in time, before the duty day of now.
func (s *script) stage(now time.Time) ([]stagedDay, error) {
	st, err := s.stager(now)
	if err != nil {
		return nil, err
	}
	var days []stagedDay
	for i, d := range s.Days {
		day := stagedDay{ago: d.Ago}
		for n, l := range d.Lines {
			draft, err := st.draft(d.Ago, l)
			if err != nil {
				return nil, fmt.Errorf("%d days ago, %s: %w", d.Ago, l[keyAt], err)
			}
			day.add(draft)
			if i == 0 && n == 0 {
				day.add(st.house(draft))
			}
			if _, ok := draft.Body.(*bath.Start); ok { // it is written as it happens, or refused
				days = append(days, day)
				day = stagedDay{ago: d.Ago}
			}
		}
		if len(day.drafts) > 0 {
			days = append(days, day)
		}
	}
	return days, nil
}

func (d *stagedDay) add(draft station.Draft) {
	d.drafts = append(d.drafts, draft)
	d.written = draft.At.Add(time.Minute)
}

func (s *script) stager(now time.Time) (*stager, error) {
	zone, err := zoneOf(now, s.Zone)
	if err != nil {
		return nil, err
	}
	p, err := roster.Parse(s.Shift)
	if err != nil {
		return nil, err
	}
	today, _ := p.Day(now.In(zone))
	// The cycle begins today, so that whoever wrote a line was on duty.
	p, err = roster.Parse(s.Shift + ",A=" + today.Format(time.DateOnly))
	return &stager{zone: zone, pattern: p, bath: s.Bath, today: today, labels: map[string]uint64{}}, err
}

// zoneOf is the zone of t where it has a name that another machine knows too,
// else the one called otherwise.
func zoneOf(t time.Time, otherwise string) (*time.Location, error) {
	if name := t.Location().String(); name != "" && name != "Local" {
		if zone, err := time.LoadLocation(name); err == nil {
			return zone, nil
		}
	}
	return time.LoadLocation(otherwise)
}

// draft sets one line in time and gives it its place in the log book.
func (st *stager) draft(ago int, l scriptLine) (station.Draft, error) {
	at, err := st.at(ago, l[keyAt])
	if err != nil {
		return station.Draft{}, err
	}
	body, err := st.body(l)
	if err != nil {
		return station.Draft{}, err
	}
	d := st.place(at, l[keyBy], body)
	if label := l[keyLabel]; label != "" {
		st.labels[label] = st.seq
	}
	return d, nil
}

// at is a time of day in the duty day so many days before today's: after the
// change of shift, or on the morning that follows.
func (st *stager) at(ago int, clock string) (time.Time, error) {
	c, err := time.Parse("15:04", clock)
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is not a time of day", clock)
	}
	days := -ago
	if c.Hour()*60+c.Minute() < st.today.Hour()*60+st.today.Minute() {
		days++
	}
	y, m, d := st.today.Date()
	return time.Date(y, m, d+days, c.Hour(), c.Minute(), 0, 0, st.zone), nil
}

// body makes the body of a line. A line that names another by its label gets
// that one's number.
func (st *stager) body(l scriptLine) (bath.Body, error) {
	body, err := l.body()
	if err != nil {
		return nil, err
	}
	switch b := body.(type) {
	case *bath.Strike:
		b.Target, err = st.labelled(l[keyStrikes])
	case *bath.Disposal:
		b.Line, err = st.labelled(l[keyOf])
	case *bath.Care:
		b.Wash, err = st.labelled(l[keyOf])
	case *bath.Ready:
		b.Wash, err = st.labelled(l[keyOf])
	}
	return body, err
}

// labelled is the number of the line before that is called so.
func (st *stager) labelled(label string) (uint64, error) {
	seq, ok := st.labels[label]
	if !ok {
		return 0, fmt.Errorf("no line before is labelled %q", label)
	}
	return seq, nil
}

// house records where the station lies and how it is staffed, right after its
// first member.
func (st *stager) house(first station.Draft) station.Draft {
	return st.place(first.At, first.By, &bath.Setting{Zone: st.zone.String(), Shift: st.pattern.String()})
}

// place makes the next draft. Its id comes of its time and place, so that the
// same story at the same time is the same to the byte.
func (st *stager) place(at time.Time, by string, body bath.Body) station.Draft {
	st.seq++
	return station.Draft{ID: lineID(at, st.seq), At: at, By: by, Bath: st.bath, Body: body}
}

// lineID is an id that looks like any other and is not left to chance.
func lineID(at time.Time, seq uint64) string {
	var id ulid.ULID
	_ = id.SetTime(ulid.Timestamp(at)) // refuses only what lies beyond the year 10889
	binary.BigEndian.PutUint64(id[8:], seq)
	return id.String()
}
