// Package catalog holds what the station knows before it washes anything: the
// types of item, the soap types, and the things that stay out of the bath. All
// of it is read from TOML files, so that an item type is added by one table.
//
// It is not the station's gear: single masks and cylinders with their tags and
// history belong to the log. It judges nothing either; package load does.
package catalog

import (
	"errors"
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
	Items      []Item
	Detergents []Detergent
	Excluded   []Excluded
}

// Load reads items.toml and detergents.toml from fsys. Every mistake in them
// is found in one go: the error joins one [*MistakeError] for each.
func Load(fsys fs.FS) (*Catalog, error) {
	items, err := readDocument(fsys, itemsFile)
	if err != nil {
		return nil, err
	}
	soaps, err := readDocument(fsys, detergentsFile)
	if err != nil {
		return nil, err
	}
	c := &Catalog{
		Items:      readTables(items, "item", readItem),
		Excluded:   readTables(items, "excluded", readExcluded),
		Detergents: readTables(soaps, "detergent", readDetergent),
	}
	c.refuseSharedNames(items, soaps)
	items.refuseOtherTables("item", "excluded")
	soaps.refuseOtherTables("detergent")
	if err := errors.Join(items.err(), soaps.err()); err != nil {
		return nil, fmt.Errorf("read catalog: %w", err)
	}
	return c, nil
}
