package catalog

import (
	"slices"
	"strings"
)

// Item finds an item type by its id, name, plural or an alias, whatever the
// case, spaces and hyphens. Otherwise the error is an [*ExcludedError] for what
// never goes in the bath, or an [*UnknownError] with the nearest names.
func (c *Catalog) Item(name string) (Item, error) {
	key := fold(name)
	ids := map[string]string{} // by name
	var known []string
	for _, item := range c.Items {
		known = append(known, item.ID)
		for _, one := range item.names() {
			if one == key {
				return item, nil
			}
			ids[one] = item.ID
		}
	}
	for _, out := range c.Excluded {
		for _, one := range out.names() {
			if one == key {
				return Item{}, &ExcludedError{name, out}
			}
			ids[one] = out.ID
		}
	}
	return Item{}, unknown("item type", name, ids, known)
}

// Detergent finds a soap type by its id, whatever the case. The error is an
// [*UnknownError].
func (c *Catalog) Detergent(id string) (Detergent, error) {
	key := fold(id)
	ids := map[string]string{} // by name
	var known []string
	for _, soap := range c.Detergents {
		if fold(soap.ID) == key {
			return soap, nil
		}
		known = append(known, soap.ID)
		ids[fold(soap.ID)] = soap.ID
		ids[fold(soap.Name)] = soap.ID
	}
	return Detergent{}, unknown("soap type", id, ids, known)
}

// names are all that it goes by, folded.
func (i Item) names() []string {
	return foldAll(append([]string{i.ID, i.Name, i.Plural}, i.Aliases...))
}

func (e Excluded) names() []string {
	return foldAll(append([]string{e.ID, e.Name, e.Plural}, e.Aliases...))
}

func foldAll(names []string) []string {
	for i, name := range names {
		names[i] = fold(name)
	}
	return names
}

// fold makes names equal that people take for equal.
func fold(name string) string {
	apart := func(r rune) bool { return strings.ContainsRune(" -_,\t", r) }
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), apart), " ")
}

// claim is what the thing in a table goes by, folded.
type claim struct {
	t     *table
	owner string // its id
	names []string
}

// refuseSharedNames notes each name that would stand for two things, at the
// table that has it last; the station's own tables count after the shipped
// ones. One thing may list a name twice: its plural is often an alias too.
func refuseSharedNames(all []claim) {
	slices.SortStableFunc(all, func(a, b claim) int {
		switch {
		case a.t.own == b.t.own:
			return 0
		case b.t.own:
			return -1
		}
		return 1
	})
	owners := map[string]string{}
	for _, c := range all {
		slices.Sort(c.names)
		for _, name := range slices.Compact(c.names) {
			if name == "" {
				continue // already noted as missing
			}
			if had, taken := owners[name]; taken {
				c.t.mistake(c.t.at.head, "%q is already a name of %q; write another", name, had)
				continue
			}
			owners[name] = c.owner
		}
	}
}
