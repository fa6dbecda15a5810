package bath

import (
	"fmt"
	"slices"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// What gear is disinfected with.
const (
	WithChlorine = "chlorine"
	WithIodine   = "iodine"
	WithMaker    = "maker" // another cleaner, by the maker's word: 29 CFR 1910.134 App. B-2
)

// Care is one step of the care after a wash, done on everything of one item
// type that the wash had in it.
type Care struct {
	Item   string     `json:"item"`
	Step   string     `json:"step"`
	Wash   uint64     `json:"wash"`
	Time   units.Span `json:"time_s,omitzero"`
	PPM    float64    `json:"ppm,omitzero"`
	With   string     `json:"with,omitzero"`
	Tester string     `json:"tester,omitzero"`
	Note   string     `json:"note,omitzero"`
}

var careSpec = &Spec{
	Kind: "care", Title: "After the wash: a step done", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Care) },
	Fields: []Field{
		field("item", "item type", "mask", func(c *Care) *string { return &c.Item }).help("everything of it that came out of one wash"),
		field("step", "step done", "rinse", func(c *Care) *string { return &c.Step }).words(catalog.StepWords...).help("in their order, none left out"),
		field("wash", "washed in line", "41", func(c *Care) *uint64 { return &c.Wash }).optional("the oldest that waits for the step, if left out"),
		field("time", "how long", "2min", func(c *Care) *units.Span { return &c.Time }).optional("where the step has a least time"),
		field("ppm", "strength, ppm", "50", func(c *Care) *float64 { return &c.PPM }).optional("of available chlorine or iodine"),
		field("with", "with", WithChlorine, func(c *Care) *string { return &c.With }).words(WithChlorine, WithIodine, WithMaker).optional("maker: another cleaner that the maker approves; name it in the note"),
		field("tester", "tested by", "Ana Reyes", func(c *Care) *string { return &c.Tester }).optional("a test: who did it; breathing sets by a qualified technician"),
		field("note", "note", "lens scratched", func(c *Care) *string { return &c.Note }).optional("anything to remember"),
	},
}

func (c *Care) spec() *Spec { return careSpec }

func (c *Care) check(v view, e Entry) error {
	b, err := v.batch(c.Wash, c.Item)
	if err != nil {
		return err
	}
	next, ok := b.Next()
	switch {
	case !ok:
		return refuse("done", "every step for %s of line %d is done: a key holder puts it back in service", b.Say(), b.Wash)
	case c.Step != next.ID && len(b.Done) == 0:
		return refuse("order", "%s comes first for %s of line %d, before %s: log that", next.ID, b.Say(), b.Wash, c.Step)
	case c.Step != next.ID:
		return refuse("order", "%s comes next for %s of line %d, not %s: log that first", next.ID, b.Say(), b.Wash, c.Step)
	case e.At.Before(b.Since()):
		return refuse("early", "%s is before the step or the wash that it follows, at %s: give a later time", v.s.day(e.At), v.s.day(b.Since().In(e.At.Location())))
	}
	return c.checkStep(v, b, next)
}

// mostCare is the longest that a step is believed to take.
const mostCare = units.Span(72 * 3600)

func (c *Care) checkStep(v view, b Batch, s CareStep) error {
	switch {
	case c.Time > mostCare:
		return refuse("input", "%s for a step is not believable: at most %s; check the unit", v.sys.span(c.Time), v.sys.span(mostCare))
	case s.ID == "test" && c.Tester == "":
		return refuse("missing", "who tested %s? Give the name; function and flow tests of breathing sets are for a qualified technician", b.Say())
	case c.With == WithMaker && c.Note == "":
		return refuse("missing", "which cleaner was it? Name the one that the maker approves in the note")
	case c.With == WithMaker:
		return nil
	case s.Least > 0 && c.Time == 0:
		return refuse("missing", "how long was it? %s takes %s at least%s", s.ID, v.sys.span(s.Least), bySource(s))
	case c.Time < s.Least:
		return refuse("too-short", "%s is too short to %s %s: %s at least%s; put it back for the whole time, then log it", v.sys.span(c.Time), s.ID, b.Say(), v.sys.span(s.Least), bySource(s))
	case s.PPM > 0 && c.PPM == 0:
		return refuse("missing", "how strong was it? %s takes %g ppm at least%s; or say with what the maker approves", s.ID, s.PPM, bySource(s))
	case c.PPM < s.PPM:
		return refuse("too-weak", "%g ppm is too weak to %s %s: %g ppm at least%s; mix it stronger, put it back for the whole time, then log it", c.PPM, s.ID, b.Say(), s.PPM, bySource(s))
	}
	return nil
}

func bySource(s CareStep) string {
	if s.Source == "" {
		return ""
	}
	return " (" + s.Source + ")"
}

func (c *Care) applyGear(s *State, b *Bath, e Entry) {
	i := b.batchAt(c.Wash, c.Item)
	if i < 0 {
		return // its wash was crossed out, or summed up long ago
	}
	x := &b.Batches[i]
	if next, ok := x.Next(); !ok || next.ID != c.Step {
		return // a line that it rested on was corrected since
	}
	x.Done = append(slices.Clip(x.Done), CareDone{e.Seq, e.At, e.By})
	if c.Step == "inspect" {
		s.inspected(x.Tags, e)
	}
}

// inspected notes that pieces were looked over.
func (s *State) inspected(tags Tags, e Entry) {
	for _, tag := range tags {
		if i := s.pieceAt(tag); i >= 0 {
			s.Gear[i].inspectedAt(e.At)
		}
	}
}

func (c *Care) say(sys units.System) string {
	s := fmt.Sprintf("%s of line %d: %s", c.Item, c.Wash, StepDone(c.Step))
	if c.Time > 0 {
		s += ", " + sys.Text(c.Time)
	}
	if c.PPM > 0 {
		s += fmt.Sprintf(", %g ppm", c.PPM)
	}
	if c.With == WithMaker {
		s += ", by the maker's cleaner"
	} else {
		s += suffix(" of ", c.With)
	}
	return s + suffix(", by ", c.Tester) + suffix(" · ", c.Note)
}
