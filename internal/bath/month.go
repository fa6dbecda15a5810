package bath

import (
	"fmt"
	"strings"
	"time"
)

// Month is a calendar month, as gear is stamped with it. The zero value is not
// known.
type Month struct {
	Year int
	Of   time.Month
}

// set reads 2019-03, 2019-03-17 or 03/2019.
func (m *Month) set(text string) error {
	for _, form := range []string{"2006-01", dateForm, "01/2006", "1/2006"} {
		if t, err := time.Parse(form, strings.TrimSpace(text)); err == nil && t.Year() > 1900 {
			*m = Month{t.Year(), t.Month()}
			return nil
		}
	}
	return fmt.Errorf("%q is not a month: write it like 2019-03", short(clean(text)))
}

// String is the month as it is typed: 2019-03.
func (m Month) String() string { return fmt.Sprintf("%04d-%02d", m.Year, m.Of) }

// Say is the month as the screen shows it: Mar 2019.
func (m Month) Say() string { return m.first(time.UTC).Format("Jan 2006") }

// MarshalText writes the month as it is typed.
func (m Month) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads it.
func (m *Month) UnmarshalText(b []byte) error { return m.set(string(b)) }

// Add is n months later.
func (m Month) Add(n int) Month {
	t := m.first(time.UTC).AddDate(0, n, 0)
	return Month{t.Year(), t.Month()}
}

// End is the first moment after the month, in loc.
func (m Month) End(loc *time.Location) time.Time { return m.first(loc).AddDate(0, 1, 0) }

// Over reports whether the month has passed at t, by t's own calendar.
func (m Month) Over(t time.Time) bool { return !t.Before(m.End(t.Location())) }

func (m Month) first(loc *time.Location) time.Time {
	return time.Date(m.Year, m.Of, 1, 0, 0, 0, 0, loc)
}

// earlier is the earlier of two months; one that is not known does not count.
func earlier(a, b Month) Month {
	if a == (Month{}) || b != (Month{}) && b.first(time.UTC).Before(a.first(time.UTC)) {
		return b
	}
	return a
}
