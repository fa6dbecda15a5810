package advise

import (
	"fmt"
	"slices"
	"time"

	"bathside/internal/bath"
)

// A line may be dated later than it is now: the clock that wrote it ran ahead,
// or this one was set back. What it says happened did happen, and counts: soap
// that was poured is in the bath. When it happened is not known, so that it
// settles nothing that comes round, and no reading of such a date is the last.

// mostAhead is how far ahead a line may be dated and count as of now: it puts
// off what comes round by no more than that.
const mostAhead = 24 * time.Hour

// toCome reports whether t is so far ahead that it was not read off a clock
// that is right.
func toCome(t, now time.Time) bool { return t.After(now.Add(mostAhead)) }

// toComeSay is why something counts as not done.
func (x *Snapshot) toComeSay(t time.Time) string {
	return fmt.Sprintf("the last is dated %s, which is to come", x.Date(t))
}

// until drops what is dated ahead from the checks of meters.
func (m meters) until(now time.Time) meters {
	return slices.DeleteFunc(slices.Clone(m), func(c MeterCheck) bool { return toCome(c.At, now) })
}

// soFar is a fill without what is dated ahead of now, for what must have been
// measured lately. The fill itself stays.
func soFar(l bath.Life, now time.Time) bath.Life {
	l.Entries = slices.DeleteFunc(slices.Clone(l.Entries), func(e bath.Entry) bool {
		return e.Seq != l.Fill.Seq && e.At.After(now.Add(bath.Slack))
	})
	return l
}
