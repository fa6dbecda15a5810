package cli

import (
	"strconv"
	"strings"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// nameValue is one of "mask=6,helmet=2".
type nameValue struct{ name, value string }

// pairs splits a list of names and values; like is how it is written.
func pairs(text, like string) ([]nameValue, error) {
	var all []nameValue
	for part := range strings.SplitSeq(text, ",") {
		name, value, ok := strings.Cut(part, "=")
		if name = strings.TrimSpace(name); !ok || name == "" {
			return nil, refuse("input", "%s is not a list: write it like %s", quote(text), like)
		}
		all = append(all, nameValue{name, strings.TrimSpace(value)})
	}
	return all, nil
}

// counts reads the values as counts of items, by their ids.
func counts(cat *catalog.Catalog, all []nameValue) (map[string]int, error) {
	byID := map[string]int{}
	for _, p := range all {
		item, err := cat.Item(p.name)
		if err != nil {
			return nil, err
		}
		n, err := strconv.Atoi(p.value)
		if err != nil {
			return nil, refuse("input", "%s is not a count: 1 to %d are allowed, like mask=6", quote(p.value), mostPlanned)
		}
		if err := checkCount(n, p.name); err != nil {
			return nil, err
		}
		byID[item.ID] += n
	}
	return byID, nil
}

// basketsFlag is --basket deep:deep:1:mask=6,helmet=2, given several times.
type basketsFlag []basketFlag

type basketFlag struct {
	load.Basket
	holds []nameValue
}

func (b *basketsFlag) String() string { return "" }
func (b *basketsFlag) Type() string   { return "deep:deep:1:mask=6,helmet=2" }

func (b *basketsFlag) Set(text string) error {
	parts := strings.SplitN(text, ":", 4)
	if len(parts) < 4 || strings.TrimSpace(parts[0]) == "" {
		return refuse("input", "%s is not a basket: write its name, shallow or deep, how many go in at once and what one holds, like %s", quote(text), b.Type())
	}
	kind := catalog.Basket(strings.ToLower(strings.TrimSpace(parts[1])))
	if kind != catalog.BasketShallow && kind != catalog.BasketDeep {
		return refuse("input", "%s is no kind of basket: write shallow or deep, like %s", quote(parts[1]), b.Type())
	}
	n, err := strconv.Atoi(strings.TrimSpace(parts[2]))
	if err != nil || n < 1 || n > 32 {
		return refuse("input", "%s is not how many go in at once: 1 to 32 are allowed, like %s", quote(parts[2]), b.Type())
	}
	holds, err := pairs(parts[3], "mask=6,helmet=2")
	if err != nil {
		return err
	}
	*b = append(*b, basketFlag{load.Basket{Name: strings.TrimSpace(parts[0]), Kind: kind, Count: n}, holds})
	return nil
}

// baskets are those given; nil is none.
func (b basketsFlag) baskets(cat *catalog.Catalog) ([]load.Basket, error) {
	var all []load.Basket
	for _, f := range b {
		holds, err := counts(cat, f.holds)
		if err != nil {
			return nil, err
		}
		f.Holds = holds
		all = append(all, f.Basket)
	}
	return all, nil
}

// dryingFlag is --drying mask=45min,pack=3h.
type dryingFlag []nameValue

func (d *dryingFlag) String() string { return "" }
func (d *dryingFlag) Type() string   { return "mask=45min,pack=3h" }

func (d *dryingFlag) Set(text string) error {
	all, err := pairs(text, d.Type())
	*d = append(*d, all...)
	return err
}

func (d dryingFlag) spans(cat *catalog.Catalog) (map[string]units.Span, error) {
	byID := map[string]units.Span{}
	for _, p := range d {
		item, err := cat.Item(p.name)
		if err != nil {
			return nil, err
		}
		span, err := units.Parse[units.Span](p.value)
		if err != nil {
			return nil, err
		}
		byID[item.ID] = span
	}
	return byID, nil
}
