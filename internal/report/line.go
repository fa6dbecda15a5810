package report

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/plain"
	"bathside/internal/units"
)

// Line is an entry as one line of the log book: its number, when it happened,
// who wrote it and what. struckBy is the line that crosses it out, 0 where none
// does; State.Struck knows. The line has no end and may be of any width. The
// time is in the zone of e.At, which is the station's as the station writes it.
func Line(e bath.Entry, sys units.System, times units.Times, struckBy uint64) string {
	when := fmt.Sprintf("%*s", times.FullClockW(), times.FullClock(e.At))
	return fmt.Sprintf("%4d  %s  %s  %s", e.Seq, when, pad(plain.Line(e.By), 12), what(e, sys, times, struckBy))
}

// what is what an entry says, with the marks that a reader must not miss put
// first.
func what(e bath.Entry, sys units.System, times units.Times, struckBy uint64) string {
	var b strings.Builder
	if struckBy != 0 {
		fmt.Fprintf(&b, "crossed out by line %d: ", struckBy)
	}
	b.WriteString(plain.Line(e.Say(sys)))
	if late(e) {
		b.WriteString(", written down " + times.DateClock(e.Logged.In(e.At.Location())))
	}
	return b.String()
}

// late reports whether e was written down more than half a day after it
// happened: from paper, as like as not.
func late(e bath.Entry) bool { return e.Logged.Sub(e.At) > 12*time.Hour }
