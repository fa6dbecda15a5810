package station

import (
	"cmp"
	"slices"

	"bathside/internal/bath"
	"bathside/internal/catalog"
)

// fillCare keeps the steps of care of today with the items of a wash.
func (s *Station) fillCare(loads []bath.Load) {
	if s.catalog == nil {
		return
	}
	for i, l := range loads {
		item, err := s.catalog.Item(l.Item)
		if err != nil { // it never goes in, and what came of it is for the gear officer
			continue
		}
		loads[i].Care = careSteps(item.Care)
	}
}

// inheritTags gives the result of a started wash the tags of its start, where
// it names none and is of the same load.
func inheritTags(st *bath.State, e bath.Entry, w *bath.Wash) {
	t, err := st.Bath(e.Bath)
	if err != nil || t.Run == nil || w.Start != t.Run.Seq || len(w.Tags) > 0 {
		return
	}
	same := slices.EqualFunc(w.Items, t.Run.Items, func(a, b bath.Load) bool { return a.Item == b.Item && a.Count == b.Count })
	if same {
		w.Tags = t.Run.Tags
	}
}

func careSteps(steps []catalog.Step) (out []bath.CareStep) {
	for _, step := range steps {
		s := bath.CareStep{ID: step.ID, Least: step.Least, PPM: step.PPM}
		if s.Least > 0 || s.PPM > 0 {
			s.Source = step.Source
		}
		out = append(out, s)
	}
	return out
}

// nameStep gives a step of care its item's id and, where no wash is named, the
// oldest that waits for it.
func (s *Station) nameStep(t *bath.Bath, c *bath.Care) {
	c.Item = s.itemID(c.Item)
	if c.Wash == 0 {
		c.Wash = cmp.Or(t.Waiting(c.Item, c.Step), t.Oldest(c.Item))
	}
}

// nameReady does the same for what goes back in service.
func (s *Station) nameReady(t *bath.Bath, r *bath.Ready, by string) {
	r.Item = s.itemID(r.Item)
	if r.Wash == 0 {
		r.Wash = cmp.Or(t.Waiting(r.Item, ""), t.Oldest(r.Item))
	}
	r.Inspector = cmp.Or(r.Inspector, by)
}

// itemID is the id of an item type; a name that the catalog does not know
// stays as it is, for the door to refuse.
func (s *Station) itemID(name string) string {
	if s.catalog != nil {
		if item, err := s.catalog.Item(name); err == nil {
			return item.ID
		}
	}
	return name
}

// nameGear gives a piece of gear the id of its item type.
func (s *Station) nameGear(g *bath.Gear) error {
	if s.catalog == nil || g.Item == "" {
		return nil
	}
	item, err := s.catalog.Item(g.Item)
	if err != nil {
		return &bath.Refusal{ID: "item", Say: err.Error()}
	}
	g.Item = item.ID
	return nil
}
