package console

import (
	"fmt"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// column is one of the table of readings.
type column struct {
	head string
	w    int // 0: to the end of the row
	cell func(advise.Judged) string
}

func (c column) pad(text string) string {
	if c.w == 0 {
		return text
	}
	return pad(text, c.w)
}

// columns are those that a window w cells wide has room for, the time first.
// Who read with which meter, and what that would be at another temperature,
// stands under the table too.
func (s *readings) columns(w int) []column {
	times := s.x.Times
	when, whenW := times.DayClock, max(18, times.DayClockW())
	if w < mediumW {
		when, whenW = times.DateClock, times.DateClockW()
	}
	all := []column{
		{"when", whenW, func(r advise.Judged) string { return when(s.x.Local(r.At)) }},
		{"pH", 5, func(r advise.Judged) string { return fmt.Sprintf("%5.2f", float64(r.Is.PH)) }},
		{"sample", 7, func(r advise.Judged) string { return s.x.Sys.Temp(r.Is.SampleC) }},
		{"would read", 10, func(r advise.Judged) string { return equivalent(s.x, r) }},
		{"against the first", 18, against},
		{"meter", 6, func(r advise.Judged) string { return plain.Line(r.Is.Meter) }},
		{"who", 0, func(r advise.Judged) string { return plain.Line(r.By) }},
	}
	if w < mediumW {
		return []column{all[0], all[1], all[2], all[4]}
	}
	return all
}

// table lists the readings, newest first, and under them what the marked one is
// worth.
func (s *readings) table(w, h int) []string {
	cols := s.columns(w)
	var heads []string
	for _, c := range cols {
		heads = append(heads, c.pad(c.head))
	}
	lines := []string{s.t.muted.Render("   " + strings.Join(heads, columnGap))}
	series := s.series()
	if len(series) == 0 {
		return rows(append(lines, "   No reading yet: press p."), w, h)
	}
	foot := s.foot(series[s.at], w, h)
	room := h - len(foot)
	first := firstShown(s.at, len(series), room-1)
	for i := first; i < len(series) && len(lines) < room; i++ {
		lines = append(lines, s.tableRow(cols, series[i], i == s.at))
	}
	return append(rows(lines, w, room), foot...)
}

const columnGap = "  "

func (s *readings) tableRow(cols []column, r advise.Judged, marked bool) string {
	var cells []string
	for _, c := range cols {
		cells = append(cells, c.pad(c.cell(r)))
	}
	mark := "   "
	if marked { // the time only: moving the mark then costs few bytes
		mark, cells[0] = s.t.mark(" ▸ ", " > "), s.t.accent.Render(cells[0])
	}
	return mark + strings.Join(cells, columnGap)
}

// foot is what the marked reading is worth, where the table leaves room for it.
func (s *readings) foot(r advise.Judged, w, h int) []string {
	if h < 8 {
		return nil
	}
	foot := []string{""}
	for _, say := range s.x.ReadingSay(r) {
		for _, l := range wrap(say, w-4) {
			foot = append(foot, "   "+s.t.muted.Render(l))
		}
	}
	return foot[:min(len(foot), h/2)]
}

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
