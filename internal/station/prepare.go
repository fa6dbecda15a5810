package station

import (
	"errors"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/units"
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
		if err := s.fillLoads(b); err != nil {
			return err
		}
	case *bath.Dose:
		if t, err := st.Bath(e.Bath); err == nil && b.Product == "" {
			b.Product = t.Tank.Product
		}
	case *bath.Reading:
		if b.Meter == "" {
			b.Meter = st.LastMeter(e.Bath)
		}
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

// fillLoads names the items of a wash as the catalog does and keeps their
// limits of today with the entry.
func (s *Station) fillLoads(w *bath.Wash) error {
	if s.catalog == nil {
		return nil
	}
	for i, l := range w.Items {
		item, err := s.catalog.Item(l.Item)
		if out := new(catalog.ExcludedError); errors.As(err, &out) { // what happened can always be written down
			w.Items[i] = bath.Load{Item: out.ID, Count: l.Count, Name: out.Excluded.Name, Never: out.Why}
			continue
		}
		if err != nil {
			return &bath.Refusal{ID: "item", Say: err.Error()}
		}
		hottest := item.Limit.Hottest()
		w.Items[i] = bath.Load{
			Item: item.ID, Count: l.Count, Name: item.Name, LimitC: &hottest, Limit: item.Limit.Printed,
			Longest: units.Minutes(item.Minutes.Longest),
		}
	}
	return nil
}
