package console

import (
	"fmt"

	"bathside/internal/advise"
)

func (s *decide) view() []string {
	if s.drawn == nil {
		s.drawn = rows(s.draw(), s.l.w, s.l.body.Dy())
	}
	return s.drawn
}

func (s *decide) draw() []string {
	switch {
	case s.x == nil:
		return nil
	case s.err != nil:
		return append([]string{s.t.title("Decide", s.l.w, true)}, indented(sentence(s.err)+".", s.l.w)...)
	}
	head := s.head(s.l.w)
	if s.beside() {
		return append(head, s.sides(s.l.body.Dy()-len(head))...)
	}
	out := append(head, s.columns(s.l.w)...)
	return append(out, s.reasons(s.l.w, s.l.body.Dy()-len(out))...)
}

// beside reports whether the reasons stand under the refill, beside the chart
// of the top-up; else they stand under both.
func (s *decide) beside() bool { return s.l.w >= mediumW && s.dose.shown }

// halves are the widths of two columns with a gap of two.
func halves(w int) (left, right int) { return w/2 - 1, w - w/2 - 1 }

// sides are the top-up with its chart, and the refill with the reasons, in h
// rows.
func (s *decide) sides(h int) []string {
	lw, rw := halves(s.l.w)
	left := append([]string{s.t.title("Top up", lw, false)}, s.dose.figures(lw)...)
	left = append(left, s.dose.chart(lw, h-len(left))...)
	right := append([]string{s.t.title("Drain and refill", rw, false)}, s.refill()...)
	right = append(right, s.reasons(rw, h-len(right))...)
	return beside(2, rows(left, lw, h), rows(right, rw, h))
}

// columns set the top-up beside the refill, or above it where the window is
// narrow.
func (s *decide) columns(w int) []string {
	if w < mediumW {
		out := append([]string{s.t.title("Top up", w, false)}, s.dose.short(w)...)
		return append(out, s.t.title("Drain and refill", w, false), s.refillShort(w))
	}
	lw, rw := halves(w)
	left := append([]string{s.t.title("Top up", lw, false)}, s.dose.figures(lw)...)
	right := append([]string{s.t.title("Drain and refill", rw, false)}, s.refill()...)
	n := max(len(left), len(right))
	return beside(2, rows(left, lw, n), rows(right, rw, n))
}

func (s *decide) refill() []string {
	r := s.d.Refill
	return append([]string{figure("soap", s.x.Amount(r.SoapL))}, figures(r.GainDays, r.Hours, r.Cost, r.PerDay)...)
}

func (s *decide) refillShort(w int) string {
	r := s.d.Refill
	return pad(" "+s.x.Amount(r.SoapL)+" · "+inShort(r.GainDays, r.Hours, r.Cost), w)
}

// figure is one named number of a column.
func figure(name, value string) string { return pad(" "+name, 14) + value }

// figures are what both ways are weighed by. Money stands only where the
// station gave its prices.
func figures(days *float64, hours float64, cost, perDay *float64) []string {
	out := []string{figure("gains", gainSay(days)), figure("work", fmt.Sprintf("%.1f h", hours))}
	if cost == nil {
		return out
	}
	say := fmt.Sprintf("%.2f", *cost)
	if perDay != nil {
		say += fmt.Sprintf(", %.2f a day gained", *perDay)
	}
	return append(out, figure("money", say))
}

// inShort is the same in half a line.
func inShort(days *float64, hours float64, cost *float64) string {
	s := fmt.Sprintf("gains %s · %.1f h of work", gainSay(days), hours)
	if cost != nil {
		s += fmt.Sprintf(" · %.2f", *cost)
	}
	return s
}

func gainSay(days *float64) string {
	if days == nil {
		return "days not known"
	}
	return advise.DaysSay(*days)
}

// indented wraps a sentence, set in by a cell.
func indented(s string, w int) []string {
	var out []string
	for _, l := range wrap(s, w-2) {
		out = append(out, " "+l)
	}
	return out
}
