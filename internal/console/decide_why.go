package console

import (
	"fmt"

	"bathside/internal/plain"
)

// reasons are the why under a title row, as much as h rows hold.
func (s *decide) reasons(w, h int) []string {
	if h < 2 {
		return nil
	}
	return append([]string{s.t.title("Why", w, false)}, s.window(s.why(w), h-1)...)
}

// lastFrom is the furthest that the reasons can be scrolled.
func (s *decide) lastFrom() int {
	w, above := s.l.w, len(s.head(s.l.w))
	if s.beside() {
		_, w = halves(w)
		above += 1 + len(s.refill())
	} else {
		above += len(s.columns(w))
	}
	return max(0, len(s.why(w))-(s.l.body.Dy()-above-1))
}

// window is the reasons as far as there is room, the last line saying how many
// more there are.
func (s *decide) window(why []string, room int) []string {
	from := max(0, min(s.from, len(why)-room))
	shown := why[from:min(len(why), from+room)]
	if below := len(why) - from - room; below > 0 && room > 1 {
		more := fmt.Sprintf("   %d more lines: down", below+1)
		shown = append(append([]string{}, shown[:room-1]...), s.t.muted.Render(more))
	}
	return shown
}

// why is the reasons, the weightiest first, and what would change the answer.
func (s *decide) why(w int) []string {
	var out []string
	point := " " + s.t.mark("·", "-") + " "
	item := func(say string) {
		for i, l := range wrap(capital(plain.Line(say))+".", w-4) {
			if i == 0 {
				out = append(out, point+l)
			} else {
				out = append(out, "   "+l)
			}
		}
	}
	for _, r := range s.d.Reasons {
		item(r.Say)
	}
	if len(s.d.Flips) > 0 {
		out = append(out, " "+s.t.bold.Render("What would change this:"))
	}
	for _, f := range s.d.Flips {
		item(f)
	}
	return out
}
