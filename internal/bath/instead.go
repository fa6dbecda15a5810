package bath

import (
	"maps"
	"slices"
)

// checkInstead says whether the correction that strike carries may take the
// place of stands, which is the entry as it counts now. It is judged where it
// stands, in its own fill and without what it corrects, and must leave every
// line in the fill that it is in.
func checkInstead(s *State, strike *Strike, stands, e Entry) error {
	fixed, _, err := strike.Corrected(stands)
	if err != nil {
		return refuse("input", "the corrected line cannot be read: %s", err)
	}
	if fixed.At.After(e.Logged.Add(Slack)) {
		return refuse("future", "%s is in the future: give the time it happened", s.day(fixed.At))
	}
	v := view{s: s, now: e.Logged, sys: sysText{s.System()}, restated: true}
	if fixed.Body.spec().Scope == OfStation {
		return checkBody(v, fixed)
	}
	b, err := s.Bath(fixed.Bath)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(b.Entries, func(x Entry) bool { return x.Seq == stands.Seq }) {
		return refuse("summed-up", "line %d is from a fill that was summed up long ago: it can be crossed out, but no longer corrected", stands.Seq)
	}
	if !maps.Equal(b.shape(), b.with(fixed).shape()) {
		return refuse("moved", "at %s line %d, or a line beside it, would fall into another fill: give a time inside its own", s.day(fixed.At), stands.Seq)
	}
	if err := b.checkCare(stands, fixed); err != nil {
		return err
	}
	if err := b.keepsWaste(stands, fixed); err != nil {
		return err
	}
	v.b = b.without(stands)
	if v.life, v.open = v.b.lifeOf(fixed); !v.open && fixed.Body.spec().Scope == OfFill {
		return refuse("no-fill", "line %d lies in no fill, since the drain before it: it can be crossed out and logged anew, not corrected", stands.Seq)
	}
	return checkBody(v, fixed)
}

// shape tells for each entry which fill it belongs to, by the fill's line; 0
// is none.
func (b *Bath) shape() map[uint64]uint64 {
	m := make(map[uint64]uint64, len(b.Entries))
	lives := b.spans()
	for _, e := range b.Entries {
		m[e.Seq] = 0
		if i := belongs(lives, e); i >= 0 {
			m[e.Seq] = lives[i].Fill.Seq
		}
	}
	return m
}

// with is b with e in the place of the entry of the same line.
func (b *Bath) with(e Entry) *Bath {
	c := *b
	c.Entries = slices.DeleteFunc(slices.Clone(b.Entries), func(x Entry) bool { return x.Seq == e.Seq })
	c.insert(e)
	return &c
}

// without is b as a correction of e finds it. The order of fills and drains is
// not judged again, since shape is; and before a release a tag hangs there.
func (b *Bath) without(e Entry) *Bath {
	c := *b
	_, fill := e.Body.(*Fill)
	_, drain := e.Body.(*Drain)
	c.Entries = slices.DeleteFunc(slices.Clone(b.Entries), func(x Entry) bool {
		return x.Seq == e.Seq || fill || drain && since(e, x)
	})
	if care, ok := e.Body.(*Care); ok {
		c.Batches = b.before(care, e.Seq)
	}
	if d, ok := e.Body.(*Disposal); ok {
		c.Waste = slices.Clone(b.Waste)
		if i := c.wasteAt(d.Line); i >= 0 && c.Waste[i].Sent == e.Seq {
			c.Waste[i].Sent = 0
		}
	}
	if _, ok := e.Body.(*Release); ok && c.Tag == nil {
		c.Tag = new(Tag)
	}
	return &c
}
