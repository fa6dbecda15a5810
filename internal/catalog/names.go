package catalog

import (
	"slices"
	"strings"
)

// ExcludedError is the name of something that never goes in the bath.
type ExcludedError struct {
	Name string // as asked for
	Excluded
}

// Error returns what stays out and what to do instead.
func (e *ExcludedError) Error() string { return e.Refusal() }

// Item finds an item type by its id, name, plural or an alias, whatever the
// case, spaces and hyphens. Otherwise the error is an [*ExcludedError] for what
// never goes in the bath, or an [*UnknownError] with the nearest names.
func (c *Catalog) Item(name string) (Item, error) {
	key := fold(name)
	ids := map[string]string{}
	for _, item := range c.Items {
		for _, one := range item.names() {
			if one == key {
				return item, nil
			}
			ids[one] = item.ID
		}
	}
	for _, out := range c.Excluded {
		if slices.Contains(out.names(), key) {
			return Item{}, &ExcludedError{name, out}
		}
	}
	return Item{}, unknown("item type", name, ids)
}

// Detergent finds a soap type by its id, whatever the case. The error is an
// [*UnknownError].
func (c *Catalog) Detergent(id string) (Detergent, error) {
	key := fold(id)
	ids := map[string]string{}
	for _, soap := range c.Detergents {
		if fold(soap.ID) == key {
			return soap, nil
		}
		ids[fold(soap.ID)] = soap.ID
		ids[fold(soap.Name)] = soap.ID
	}
	return Detergent{}, unknown("soap type", id, ids)
}

// names are all that it goes by, folded.
func (i Item) names() []string {
	return foldAll(append([]string{i.ID, i.Name, i.Plural}, i.Aliases...))
}

func (e Excluded) names() []string {
	return foldAll(append([]string{e.Name}, e.Aliases...))
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

// refuseSharedNames notes each name that would stand for two things.
func (c *Catalog) refuseSharedNames(items, soaps *document) {
	owners := map[string]string{}
	for i, item := range c.Items {
		claim(owners, items, items.line("item", i), item.ID, item.names())
	}
	for i, out := range c.Excluded {
		claim(owners, items, items.line("excluded", i), out.Name, out.names())
	}
	owners = map[string]string{}
	for i, soap := range c.Detergents {
		claim(owners, soaps, soaps.line("detergent", i), soap.ID, []string{fold(soap.ID)})
	}
}

// claim gives folded names to their owner, which stands on that line of d. One
// thing may list a name twice: its plural is often an alias too.
func claim(owners map[string]string, d *document, line int, owner string, names []string) {
	slices.Sort(names)
	for _, name := range slices.Compact(names) {
		if name == "" {
			continue // already noted as missing
		}
		if had, taken := owners[name]; taken {
			d.mistake(line, "%q is already a name of %q; write another", name, had)
			continue
		}
		owners[name] = owner
	}
}
