// Package catalog holds what the station knows before it washes anything: the
// types of item, the soap types, and the things that stay out of the bath. All
// of it is read from TOML files, so that an item type is added by one table,
// and a station changes what ships by a file of its own.
//
// It is not the station's gear: single masks and cylinders with their tags and
// history belong to the log. It judges nothing either; package load does.
package catalog

import (
	"fmt"
	"io/fs"
)

// The files that Load reads.
const (
	itemsFile      = "items.toml"
	detergentsFile = "detergents.toml"
)

// Catalog is all item types and soap types, in the order of their files.
type Catalog struct {
	Items      []Item // those that may be washed
	Detergents []Detergent
	Excluded   []Excluded // those that never are
}

// Load reads items.toml and detergents.toml from base and lays the station's
// own files over them, in their order. Every mistake is found in one go: the
// error is then a [Mistakes], with those of the shipped files first.
func Load(base fs.FS, own ...Own) (*Catalog, error) {
	items, err := readDocument(base, itemsFile)
	if err != nil {
		return nil, err
	}
	soaps, err := readDocument(base, detergentsFile)
	if err != nil {
		return nil, err
	}
	laid, err := readOwn(own)
	if err != nil {
		return nil, err
	}
	items.refuseOtherTables("item")
	soaps.refuseOtherTables("detergent")
	c := new(Catalog)
	c.readItems(layOver(items.needTables("item"), laid, "item"))
	c.readDetergents(layOver(soaps.needTables("detergent"), laid, "detergent"))
	if err := mistakesOf(append([]*document{items, soaps}, laid...)); err != nil {
		return nil, fmt.Errorf("read catalog: %w", err)
	}
	return c, nil
}

// readItems reads each table as what may be washed or as what never is.
func (c *Catalog) readItems(tables []*table) {
	var all []claim
	for _, t := range tables {
		if _, never := t.fields["never"]; never {
			out := readExcluded(t)
			c.Excluded = append(c.Excluded, out)
			all = append(all, claim{t, out.ID, out.names()})
		} else {
			item := readItem(t)
			c.Items = append(c.Items, item)
			all = append(all, claim{t, item.ID, item.names()})
		}
		t.refuseOtherFields()
	}
	refuseSharedNames(all)
}

func (c *Catalog) readDetergents(tables []*table) {
	var all []claim
	for _, t := range tables {
		soap := readDetergent(t)
		t.refuseOtherFields()
		c.Detergents = append(c.Detergents, soap)
		all = append(all, claim{t, soap.ID, []string{fold(soap.ID)}})
	}
	refuseSharedNames(all)
}
