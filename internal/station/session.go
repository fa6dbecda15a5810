package station

import (
	"strings"
	"time"
)

// sessionLasts is how long after the last wash a key holder's PIN is still
// good for the next.
const sessionLasts = 30 * time.Minute

// Session is a key holder's wash session: who gave their PIN, and until when it
// holds. It is a value in the memory of one face; the zero Session covers
// nobody.
type Session struct {
	member string
	begun  time.Time
	until  time.Time
	change time.Time // of shift
}

// BeginSession starts the session of a member whose PIN was taken at now. It
// ends 30 min after the last wash, 30 min from now where there is none, and at
// the change of shift in any case. Where shiftEnd is zero there is no change.
func BeginSession(member string, now, shiftEnd time.Time) Session {
	s := Session{member: member, begun: now, change: shiftEnd}
	return s.lasting(now)
}

// Washed gives the session after a wash that ended at that time. A wash
// outside the session leaves it as it is.
func (s Session) Washed(end time.Time) Session {
	if !s.covers(end) {
		return s
	}
	return s.lasting(end)
}

func (s Session) lasting(from time.Time) Session {
	if end := from.Add(sessionLasts); end.After(s.until) {
		s.until = end
	}
	if !s.change.IsZero() && s.change.Before(s.until) {
		s.until = s.change
	}
	return s
}

// Covers reports whether the session stands for the PIN of member at now. A
// clock put back to before it began ends it.
func (s Session) Covers(member string, now time.Time) bool {
	return s.member != "" && strings.EqualFold(s.member, member) && s.covers(now)
}

func (s Session) covers(t time.Time) bool {
	return !t.Before(s.begun) && t.Before(s.until)
}

// Until is when the session ends as it stands; zero for the zero Session.
func (s Session) Until() time.Time { return s.until }
