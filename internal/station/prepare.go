package station

import (
	"cmp"
	"errors"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/catalog"
)

// prepare makes an entry of a draft: who and which bath by their full names,
// times in the station's zone, and in the body whatever the fold will need
// from the catalog of today.
func (s *Station) prepare(st *bath.State, d Draft) (bath.Entry, error) {
	zone := st.Zone()
	if st.Site.Zone == "" && s.zone != nil {
		zone = s.zone
	}
	e := bath.Entry{
		ID: d.ID, By: strings.TrimSpace(d.By), Bath: d.Bath, Body: d.Body,
		At: d.At.In(zone).Truncate(time.Second), Logged: s.now().In(zone).Truncate(time.Second),
	}
	e.Scrub() // as a form does: what happened is recorded, less the signs that nobody sees
	if m, err := st.Member(e.By); err == nil {
		e.By = m.Name
	}
	if err := nameBath(st, &e); err != nil {
		return e, err
	}
	return e, s.prepareBody(st, e)
}

// prepareBody puts into the body of e what nobody typed.
func (s *Station) prepareBody(st *bath.State, e bath.Entry) error {
	switch b := e.Body.(type) {
	case *bath.Wash:
		if err := s.fillLoads(b.Items); err != nil {
			return err
		}
		s.fillCare(b.Items)
		st.NamePapers(b.Items, e.At)
		if t, err := st.Bath(e.Bath); err == nil && t.Run != nil && b.Start == 0 && t.Run.ResultOf(e.At) {
			b.Start = t.Run.Seq
		}
		inheritTags(st, e, b)
	case *bath.Start:
		if err := s.keepOut(b.Items); err != nil {
			return err
		}
		if err := s.fillLoads(b.Items); err != nil {
			return err
		}
		st.NamePapers(b.Items, e.At)
		if b.Passed = nil; b.Override != "" {
			b.Passed = softGates(st, e, s.now())
		}
	case *bath.Procedure:
		if b.State == bath.PaperPending && b.Accepted == "" {
			b.Accepted = e.By
		}
		return s.nameItem(b)
	case *bath.Basket:
		return s.nameHolds(b.Holds)
	case *bath.Dose:
		if t, err := st.Bath(e.Bath); err == nil && b.Product == "" {
			b.Product = t.Tank.Product
		}
	case *bath.Drain:
		st.NamePermission(b)
	case *bath.Reading:
		if b.Meter == "" {
			b.Meter = st.LastMeter(e.Bath)
		}
	case *bath.Care:
		if t, err := st.Bath(e.Bath); err == nil {
			s.nameStep(t, b)
		}
	case *bath.Ready:
		if t, err := st.Bath(e.Bath); err == nil {
			s.nameReady(t, b, e.By)
		}
	case *bath.Gear:
		return s.nameGear(b)
	case *bath.Inspect:
		b.Inspector = cmp.Or(b.Inspector, e.By)
	case *bath.Practice:
		b.SetWitness(st)
	}
	if o, ok := e.Body.(interface{ SetOutside([]string) }); ok {
		o.SetOutside(bath.Outside(st, e))
	}
	return nil
}

// nameBath gives the entry the id of its bath as it was set up. Entries of the
// station have none, and a tank may be a new one.
func nameBath(st *bath.State, e *bath.Entry) error {
	spec, _ := bath.SpecOf(e.Kind())
	if e.Kind() == "tank" {
		if b, err := st.Bath(e.Bath); err == nil {
			e.Bath = b.ID
		}
		return nil
	}
	if spec == nil || spec.Scope == bath.OfStation {
		e.Bath = ""
		return nil
	}
	b, err := st.Bath(e.Bath)
	if err != nil {
		return err
	}
	e.Bath = b.ID
	return nil
}

// softGates names the gates that an override lets a start through.
func softGates(st *bath.State, e bath.Entry, now time.Time) (ids []string) {
	gates, err := bath.Gates(st, e, now)
	if err != nil {
		return nil // the door says so
	}
	for _, g := range gates {
		if g.Soft {
			ids = append(ids, g.ID)
		}
	}
	return ids
}

// keepOut refuses to start a wash of what never goes in, with what to do with
// it instead.
func (s *Station) keepOut(loads []bath.Load) error {
	if s.catalog == nil {
		return nil
	}
	for _, l := range loads {
		_, err := s.catalog.Item(l.Item)
		if out := new(catalog.ExcludedError); errors.As(err, &out) {
			return &bath.Refusal{ID: "never", Say: out.Refusal()}
		}
	}
	return nil
}

// nameItem gives a maker's paper the id of the item type that it is about.
func (s *Station) nameItem(p *bath.Procedure) error {
	if s.catalog == nil || p.Item == "" {
		return nil
	}
	item, err := s.catalog.Item(p.Item)
	if err != nil {
		return &bath.Refusal{ID: "item", Say: err.Error()}
	}
	p.Item = item.ID
	return nil
}

// nameHolds names what a basket holds as the catalog does; no more is kept.
func (s *Station) nameHolds(holds []bath.Load) error {
	if s.catalog == nil {
		return nil
	}
	for i, l := range holds {
		item, err := s.catalog.Item(l.Item)
		if err != nil {
			return &bath.Refusal{ID: "item", Say: err.Error()}
		}
		holds[i] = bath.Load{Item: item.ID, Count: l.Count, Name: item.Name}
	}
	return nil
}

// fillLoads names the items of a wash as the catalog does and keeps their
// limits of today with the entry.
func (s *Station) fillLoads(loads []bath.Load) error {
	if s.catalog == nil {
		return nil
	}
	for i, l := range loads {
		item, err := s.catalog.Item(l.Item)
		if out := new(catalog.ExcludedError); errors.As(err, &out) { // what happened can always be written down
			loads[i] = bath.Load{Item: out.ID, Count: l.Count, Name: out.Excluded.Name, Never: out.Why}
			continue
		}
		if err != nil {
			return &bath.Refusal{ID: "item", Say: err.Error()}
		}
		loads[i] = bath.LoadOf(item, l.Count)
	}
	return nil
}
