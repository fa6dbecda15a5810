package console

import (
	"fmt"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/plain"
)

// gearFootH is the height of the foot that tells of the marked thing.
const gearFootH = 4

func (s *gear) view() []string {
	w, h := s.l.w, s.l.body.Dy()
	if s.x == nil {
		return rows(nil, w, h)
	}
	var out []string
	switch room := h - gearFootH; {
	case len(s.pieces) == 0:
		out = s.batchBlock(w, room)
	case s.l.one && s.tagged:
		out = s.pieceBlock(w, room)
	case s.l.one:
		out = s.batchBlock(w, room)
	default:
		top := min(max(4, len(s.batches)+1), room-min(room/2, len(s.pieces)+1))
		out = append(s.batchBlock(w, top), s.pieceBlock(w, room-top)...)
	}
	return rows(append(out, s.foot(w)...), w, h)
}

func (s *gear) batchBlock(w, h int) []string {
	name := "After the wash"
	if n := len(s.batches); n > 0 {
		name = fmt.Sprintf("After the wash · %d not back in service", n)
	}
	out := []string{s.t.title(name, w, !s.tagged)}
	if len(s.batches) == 0 {
		return rows(append(out, "  Everything that was washed is back in service."), w, h)
	}
	first := firstShown(s.at[0], len(s.batches), h-1)
	for i := first; i < len(s.batches) && len(out) < h; i++ {
		out = append(out, s.batchRow(s.batches[i], !s.tagged && i == s.at[0], w))
	}
	return rows(out, w, h)
}

// batchRow is what, how many, which step is next, since when.
func (s *gear) batchRow(b bath.Batch, marked bool, w int) string {
	text := pad(b.Say(), min(26, w*2/5)) + " " + pad(b.Where(), 10)
	since := " " + sinceSay(s.x.Now.Sub(b.Since()))
	if s.l.w >= mediumW {
		since = fmt.Sprintf(" since %s,%s", s.x.Clock(b.Since()), since)
	}
	text += since
	if b.Outside {
		text += ", outside the rule"
	}
	return s.row(text, fmt.Sprintf("line %d ", b.Wash), b.Hold != nil, marked, w)
}

// row is a line of either list, with the mark before it.
func (s *gear) row(text, right string, held, marked bool, w int) string {
	mark := "  "
	text = spread(text, right, w-3)
	switch {
	case marked:
		mark, text = s.t.mark("▸ ", "> "), s.t.accent.Render(text)
	case held:
		text = s.t.bad.Render(text)
	}
	return " " + mark + text
}

func (s *gear) pieceBlock(w, h int) []string {
	out := []string{s.t.title(fmt.Sprintf("Tagged gear · %d", len(s.pieces)), w, s.tagged)}
	first := firstShown(s.at[1], len(s.pieces), h-1)
	for i := first; i < len(s.pieces) && len(out) < h; i++ {
		out = append(out, s.pieceRow(s.pieces[i], s.tagged && i == s.at[1], w))
	}
	return rows(out, w, h)
}

// pieceRow is a tag, what it is, where it is, and its first date.
func (s *gear) pieceRow(p advise.GearLine, marked bool, w int) string {
	text := pad(p.Tag, 16) + " " + pad(s.itemName(p.Item), 16) + " " + pad(p.Where, 11)
	date := ""
	if len(p.Clocks) > 0 {
		if date = p.Clocks[0].Say; p.Clocks[0].Over {
			date = "OVER: " + date
		}
	}
	if s.l.w < mediumW {
		text = pad(p.Tag, 10) + " " + pad(s.itemName(p.Item), 9) + " " + pad(p.Where, 11)
	}
	return s.row(text+" "+plain.Line(date), "", p.Hold != nil, marked, w)
}

func (s *gear) itemName(id string) string {
	if s.cat != nil {
		if item, err := s.cat.Item(id); err == nil {
			return item.Name
		}
	}
	return plain.Line(id)
}

// foot tells of the marked thing what the row has no room for.
func (s *gear) foot(w int) []string {
	var name string
	var say []string
	if b, ok := s.batch(); ok {
		name, say = b.Say(), s.batchSay(b)
	} else if p, ok := s.piece(); ok {
		name, say = p.Tag, pieceSay(s.x, p)
	} else {
		return rows(nil, w, gearFootH)
	}
	out := []string{s.t.title(plain.Line(name), w, false)}
	for _, l := range wrap(plain.Line(strings.Join(say, " ")), w-4) {
		out = append(out, "  "+l)
	}
	return rows(out, w, gearFootH)
}

// batchSay is the next step as the catalog tells it, and what holds the batch.
func (s *gear) batchSay(b bath.Batch) (say []string) {
	next, more := b.Next()
	switch {
	case b.Hold != nil:
		say = append(say, fmt.Sprintf("Held by %s: %s. A gear officer lifts it.", b.Hold.By, b.Hold.Why))
	case more:
		say = append(say, capital(s.stepSay(b, next))+".")
	default:
		say = append(say, "Every step is done: a key holder puts it back in service.")
	}
	if b.Outside {
		say = append(say, "Washed outside the rule: it does not count as proper cleaning.")
	}
	if len(b.Tags) > 0 {
		say = append(say, "Tags: "+b.Tags.String()+".")
	}
	return append(say, fmt.Sprintf("Washed by %s %s.", b.By, s.x.Clock(b.At)))
}

// stepSay is a step in the catalog's words, where it has it at that place.
func (s *gear) stepSay(b bath.Batch, next bath.CareStep) string {
	if s.cat == nil {
		return next.ID
	}
	item, err := s.cat.Item(b.Item)
	if n := len(b.Done); err == nil && n < len(item.Care) && item.Care[n].ID == next.ID {
		return withLimits(item.Care[n])
	}
	return next.ID
}

func withLimits(step catalog.Step) string {
	if step.Source == "" {
		return step.Say
	}
	return step.Say + " (" + step.Source + ")"
}

// pieceSay is the record of a piece, and all its dates.
func pieceSay(x *advise.Snapshot, p advise.GearLine) (say []string) {
	if p.Hold != nil {
		say = append(say, fmt.Sprintf("Held by %s, %s: %s.", p.Hold.By, x.Clock(p.Hold.At), p.Hold.Why))
	}
	if p.Gone != "" {
		say = append(say, "Gone: "+p.Gone+".")
	}
	record := fmt.Sprintf("%d washes", p.Washes)
	if p.Washes == 1 {
		record = "1 wash"
	}
	if last, ok := p.LastWash(); ok {
		record += ", the last " + x.Date(last.At)
	}
	if p.Model != "" {
		record += ", model " + p.Model
	}
	if p.Serial != "" {
		record += ", serial " + p.Serial
	}
	if p.IssuedTo != "" {
		record += ", issued to " + p.IssuedTo
	}
	say = append(say, record+".")
	for _, c := range p.Clocks {
		say = append(say, fmt.Sprintf("%s (%s).", capital(c.Say), c.Source))
	}
	return say
}
