package console

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// stationFootH is the height of the foot that tells of the marked value what
// its row has no room for.
const stationFootH = 4

// stationPartsW is how wide the list of parts stands beside the values.
const stationPartsW = 24

func (s *stationScreen) view() []string {
	w, h := s.l.w, s.l.body.Dy()
	if s.x == nil {
		return rows(nil, w, h)
	}
	room := h - stationFootH
	var out []string
	switch {
	case w >= mediumW:
		out = beside(1, s.partBlock(stationPartsW, room), s.valueBlock(w-stationPartsW-1, room))
	case h < 20 && s.values:
		out = s.valueBlock(w, room)
	case h < 20:
		out = s.partBlock(w, room)
	default:
		top := min(len(s.parts)+1, room/2)
		out = append(s.partBlock(w, top), s.valueBlock(w, room-top)...)
	}
	return rows(append(out, s.foot(w)...), w, h)
}

func (s *stationScreen) partBlock(w, h int) []string {
	out := []string{s.t.title("Station", w, !s.values)}
	first := firstShown(s.part, len(s.parts), h-1)
	for i := first; i < len(s.parts) && len(out) < h; i++ {
		name := pad(plain.Line(s.parts[i].Name), w-3)
		if s.values && i == s.part { // the values beside it have the keys
			out = append(out, " "+s.t.accent.Render("· "+name))
			continue
		}
		out = append(out, s.row(name, i == s.part, w))
	}
	return rows(out, w, h)
}

func (s *stationScreen) valueBlock(w, h int) []string {
	p := s.marked()
	out := []string{s.t.title(plain.Line(p.Name), w, s.values)}
	if len(p.Values) == 0 {
		for _, l := range wrap(p.None, w-4) {
			out = append(out, "  "+l)
		}
		return rows(out, w, h)
	}
	first := firstShown(s.value, len(p.Values), h-1)
	for i := first; i < len(p.Values) && len(out) < h; i++ {
		out = append(out, s.row(s.valueRow(p, p.Values[i], w-3), s.values && i == s.value, w))
	}
	return rows(out, w, h)
}

// valueRow is what a value is called, what it is, and whose word that is.
func (s *stationScreen) valueRow(p advise.Part, v advise.Value, w int) string {
	label, is := columns(p.Values, w)
	text := pad(plain.Line(v.Label), label) + "  " + pad(shownValue(v), is)
	return text + "  " + ansi.Truncate(plain.Line(v.From), max(0, w-label-is-4), "…")
}

// columns are how wide labels and values stand: what a value is comes before
// whose word it is, which the foot tells whole.
func columns(values []advise.Value, w int) (label, is int) {
	for _, v := range values {
		label = max(label, ansi.StringWidth(plain.Line(v.Label)))
		is = max(is, ansi.StringWidth(shownValue(v)))
	}
	label = min(label, w/3)
	return label, min(is, max(w/3, w-label-4-16))
}

func shownValue(v advise.Value) string {
	if v.Is == "" {
		return "–"
	}
	return plain.Line(v.Is)
}

// row is a line of either list, with the mark before it.
func (s *stationScreen) row(text string, marked bool, w int) string {
	mark := "  "
	if text = pad(text, w-3); marked {
		mark, text = s.t.mark("▸ ", "> "), s.t.accent.Render(text)
	}
	return " " + mark + text
}

// foot is the marked value whole: what it is, whose word, and what for.
func (s *stationScreen) foot(w int) []string {
	p := s.marked()
	if len(p.Values) == 0 || !s.values {
		return s.footOf(p.Name, s.partSay(), w)
	}
	v := p.Values[s.value]
	say := v.From
	if v.Is != "" {
		say = v.Is + " · " + say
	}
	return s.footOf(v.Label, capital(say)+". "+capital(v.Help)+".", w)
}

func (s *stationScreen) footOf(name, say string, w int) []string {
	out := []string{s.t.title(plain.Line(name), w, false)}
	for _, l := range wrap(plain.Line(say), w-4) {
		out = append(out, "  "+l)
	}
	return rows(out, w, stationFootH)
}

// partSay is what can be done with the marked part.
func (s *stationScreen) partSay() string {
	var say []string
	if len(s.marked().Values) > 0 {
		say = append(say, "Enter goes to its values; enter on one changes it.")
	}
	if a := s.marked().Add; a != nil {
		say = append(say, "Press a to "+a.Label+".")
	}
	return strings.Join(say, " ")
}
