package console

import (
	"fmt"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// table lists the readings, newest first, and under them what the marked one is
// worth.
func (s *readings) table(w, h int) []string {
	lines := []string{s.t.muted.Render("   " + pad("when", s.whenW()) + "  pH     sample   would read  against the first   meter   who")}
	series := s.series()
	if len(series) == 0 {
		return rows(append(lines, "   No reading yet: press p."), w, h)
	}
	foot := s.foot(series[s.at], w, h)
	room := h - len(foot)
	first := firstShown(s.at, len(series), room-1)
	for i := first; i < len(series) && len(lines) < room; i++ {
		lines = append(lines, s.tableRow(series[i], i == s.at))
	}
	return append(rows(lines, w, room), foot...)
}

// foot is what the marked reading is worth, where the table leaves room for it.
func (s *readings) foot(r advise.Judged, w, h int) []string {
	if h < 8 {
		return nil
	}
	foot := []string{""}
	for _, say := range s.x.ReadingSay(r) {
		foot = append(foot, "   "+s.t.muted.Render(ansi.Truncate(say, w-4, "…")))
	}
	return foot
}

func (s *readings) tableRow(r advise.Judged, marked bool) string {
	mark := "   "
	when := pad(s.x.Times.DayClock(s.x.Local(r.At)), s.whenW())
	if marked { // the time only: moving the mark then costs few bytes
		mark, when = s.t.mark(" ▸ ", " > "), s.t.accent.Render(when)
	}
	return fmt.Sprintf("%s%s  %5.2f  %s  %s  %s  %s  %s", mark, when, float64(r.Is.PH),
		pad(s.x.Sys.Temp(r.Is.SampleC), 7), pad(equivalent(s.x, r), 10), pad(against(r), 18), pad(plain.Line(r.Is.Meter), 6), plain.Line(r.By))
}

// whenW is how wide the times of a list stand.
func (s *readings) whenW() int { return max(18, s.x.Times.DayClockW()) }

// equivalent is what a reading at another temperature would read at that of
// the first one.
func equivalent(x *advise.Snapshot, r advise.Judged) string {
	ph, first, ok := x.PH.AtFirst(r)
	if !ok || advise.Like(r.Is, first.Is) || r.Is.Baseline {
		return ""
	}
	return fmt.Sprintf("%.2f", float64(ph))
}

// against says how a reading stands to the first one.
func against(r advise.Judged) string {
	switch {
	case r.Doubt.Kind == advise.DoubtRose:
		return "doubtful: rose"
	case r.Doubt.Kind == advise.DoubtMeter:
		return "doubtful: meter"
	case r.Doubt.Kind == advise.DoubtClock:
		return "doubtful: its date is to come"
	case r.Is.Baseline && r.Is.Cooled:
		return "first, cooled cup"
	case r.Is.Baseline:
		return "first reading"
	case r.Drop == nil:
		return "not compared"
	case *r.Drop < -0.005:
		return "up " + advise.GiveOrTake(-*r.Drop, r.U)
	}
	return "down " + advise.GiveOrTake(max(0, *r.Drop), r.U)
}
