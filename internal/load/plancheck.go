package load

import (
	"fmt"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// check refuses a request that cannot be planned.
func (r Request) check() error {
	if err := r.Tank.check(); err != nil {
		return err
	}
	if len(r.Baskets) == 0 {
		return fmt.Errorf("no baskets; add the station's own, with what they hold")
	}
	for _, b := range r.Baskets {
		if err := b.check(); err != nil {
			return err
		}
	}
	total := 0
	for _, b := range r.Batches {
		if b.N < 0 || b.N > mostThings {
			return fmt.Errorf("%d %s; plan 0 to %d", b.N, b.Item.Plural, mostThings)
		}
		total += b.N
	}
	if total > mostThings {
		return fmt.Errorf("%d pieces; plan %d at most, the rest in a second plan", total, mostThings)
	}
	return r.Care.check()
}

func (t Tank) check() error {
	switch {
	case t.HalfSlots < 1 || t.HalfSlots > 64:
		return fmt.Errorf("the bath takes %d half baskets; write 1 to 64: a shallow basket is one, a deep one two", t.HalfSlots)
	case t.MaxBaskets < 0 || t.MaxBaskets > 64:
		return fmt.Errorf("the bath takes %d baskets; write 1 to 64, or 0 for as many as there is room for", t.MaxBaskets)
	case !(t.Water > 0):
		return fmt.Errorf("the bath's volume is %s; write it as filled to the mark", units.SI.Text(t.Water))
	case !(t.Freeboard >= 0):
		return fmt.Errorf("the freeboard is %s; write what goes in from the mark to the rim, or 0 if not known", units.SI.Text(t.Freeboard))
	}
	return nil
}

func (b Basket) check() error {
	switch {
	case b.Kind != catalog.BasketShallow && b.Kind != catalog.BasketDeep:
		return fmt.Errorf("basket %q is %q; write shallow or deep", b.Name, b.Kind)
	case b.Count < 0 || b.Count > 64:
		return fmt.Errorf("there are %d of basket %q; write 0 to 64", b.Count, b.Name)
	case !(b.Length >= 0 && b.Width >= 0 && b.Height >= 0 && b.MaxMass >= 0):
		return fmt.Errorf("basket %q has a size or mass below 0; write it as measured, or 0 if not", b.Name)
	}
	for id, n := range b.Holds {
		if n < 0 {
			return fmt.Errorf("basket %q holds %d of %s; write 0 or more", b.Name, n, id)
		}
	}
	return nil
}

func (c Care) check() error {
	for id, dry := range c.Dry {
		if !(dry >= 0) {
			return fmt.Errorf("%s takes %s to dry; write 0 or more", id, dry)
		}
	}
	if !(c.Changeover >= 0 && c.Rinse >= 0) || c.RinsePlaces < 0 || c.DryPlaces < 0 {
		return fmt.Errorf("changeover %s, rinse %s, %d rinse and %d drying places; write none below 0", c.Changeover, c.Rinse, c.RinsePlaces, c.DryPlaces)
	}
	return nil
}
