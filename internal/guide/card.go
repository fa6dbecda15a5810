package guide

import (
	"fmt"
	"strconv"

	"bathside/internal/catalog"
)

// Card is what to know of one item type at the bath, short enough for the
// wall. It is made of the catalog: a station that changes an item changes its
// card.
type Card struct {
	ID      string   `json:"id"`   // the item type's
	Name    string   `json:"name"` // "Mask"
	Before  []Before `json:"before,omitempty"`
	Basket  string   `json:"basket"`  // how it lies in the basket
	Minutes string   `json:"minutes"` // by soil, and the longest
	Source  string   `json:"source"`  // of the minutes
	Limit   string   `json:"limit"`   // hottest bath, with its source
	After   []string `json:"after,omitempty"`
}

// Before is something to look at or take off before it goes in.
type Before struct {
	Say string `json:"say"`
	Why string `json:"why"`
}

// CardOf makes the card of an item type.
func CardOf(item catalog.Item) Card {
	c := Card{ID: item.ID, Name: item.Name, Basket: lies(item), Minutes: minutes(item.Minutes), Source: item.Minutes.Source}
	c.Limit = fmt.Sprintf("bath at %s, unless a maker's paper on file says otherwise (%s)", item.Limit.Printed, item.Limit.Source)
	for _, k := range item.Checks {
		c.Before = append(c.Before, Before{k.Say, k.Why})
	}
	for _, s := range item.Care {
		c.After = append(c.After, s.ID+": "+s.Say)
	}
	return c
}

var baskets = map[catalog.Basket]string{
	catalog.BasketShallow: "shallow basket",
	catalog.BasketDeep:    "deep basket",
	catalog.BasketEither:  "shallow or deep basket",
}

// lies is how an item lies: solid parts in each other's way throw a shadow,
// and hollow ones keep their air (common practice, no source).
func lies(item catalog.Item) string {
	s := baskets[item.Basket]
	switch item.Lid {
	case catalog.LidMust:
		s += ", lid clipped over it: it floats"
	case catalog.LidOptional:
		s += ", lid or none"
	default:
		s += ", no lid: it sinks"
	}
	return s + "; one layer, hollow ends angled, nothing on the floor of the tank"
}

func minutes(m catalog.Minutes) string {
	n := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	return fmt.Sprintf("%s light, %s normal, %s heavy soil; at most %s min", n(m.Light), n(m.Normal), n(m.Heavy), n(m.Longest))
}
