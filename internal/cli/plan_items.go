package cli

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/catalog"
	"bathside/internal/load"
)

// The shipped item types, each a flag of plan: reading the catalog for the
// flags alone would slow down every command. A station's own types go by --item.
var (
	planItemTypes = []string{"mask", "helmet", "cylinder", "pack", "soft-parts", "tool", "axe", "irons", "nozzle", "coupling", "fitting", "light", "rope-hardware"}
	planNever     = []string{"regulator", "radio", "electronics", "detector", "power-tool", "hose", "soft-goods", "lens", "leather", "rope"}
)

// itemCount is so many of an item, by any of its names.
type itemCount struct {
	Item  string `json:"item"`
	Count int    `json:"count"`
	Soil  string `json:"soil"` // "" is the soil of the whole plan
}

// countsFlag is --mask 12 --helmet 4 --item "our own type=3".
type countsFlag []itemCount

func (c *countsFlag) addTo(cmd *cobra.Command) {
	for _, id := range planItemTypes {
		cmd.Flags().Var(oneCount{c, id}, id, "how many")
	}
	for _, id := range planNever { // what never goes in is answered with what to do instead
		cmd.Flags().Var(oneCount{c, id}, id, "how many")
		_ = cmd.Flags().MarkHidden(id) // it was added above
	}
	cmd.Flags().Var(oneCount{list: c}, "item", "any item type, by its name; may be given several times")
}

// oneCount is one of the flags. Without an id the name is typed too.
type oneCount struct {
	list *countsFlag
	id   string
}

func (o oneCount) String() string { return "" }

func (o oneCount) Type() string {
	if o.id == "" {
		return "mask=12"
	}
	return "12"
}

func (o oneCount) Set(text string) error {
	name, number := o.id, text
	if name == "" {
		var ok bool
		if name, number, ok = strings.Cut(text, "="); !ok {
			return refuse("input", "%s has no count: write it like mask=12", quote(text))
		}
	}
	n, err := strconv.Atoi(strings.TrimSpace(number))
	if err != nil {
		return refuse("input", "%s is not a count: 1 to %d are allowed, like 12", quote(number), mostPlanned)
	}
	*o.list = append(*o.list, itemCount{Item: name, Count: n})
	return checkCount(n, name)
}

// planned is what is to be washed, and what never is.
type planned struct {
	batches []load.Batch
	never   []planKept
}

// planItems gathers the flags and the file.
func (a *app) planItems(in planFlags) (planned, error) {
	counts := slices.Clone([]itemCount(in.items))
	if in.file != "" {
		more, err := a.readLoadFile(in.file)
		if err != nil {
			return planned{}, err
		}
		counts = append(counts, more...)
	}
	if len(counts) == 0 {
		return planned{}, refuse("missing", "what is to be washed? Give it like --mask 12 --helmet 4, or --file load.json")
	}
	cat, err := a.catalog()
	if err != nil {
		return planned{}, err
	}
	var all planned
	for _, c := range counts {
		if err := all.add(cat, c, in.soil); err != nil {
			return planned{}, err
		}
	}
	return all, nil
}

// add puts so many of an item to those of its type and soil.
func (p *planned) add(cat *catalog.Catalog, c itemCount, soilWord string) error {
	if err := checkCount(c.Count, c.Item); err != nil {
		return err
	}
	soil, err := load.ParseSoil(cmp.Or(c.Soil, soilWord))
	if err != nil {
		return refuse("input", "%s", err)
	}
	item, err := cat.Item(c.Item)
	if never := new(catalog.ExcludedError); errors.As(err, &never) {
		p.never = append(p.never, planKept{planItem{never.ID, c.Count, soil, never.Plural}, never.Refusal()})
		return nil
	}
	if err != nil {
		return err
	}
	i := slices.IndexFunc(p.batches, func(b load.Batch) bool { return b.Item.ID == item.ID && b.Soil == soil })
	if i < 0 {
		p.batches = append(p.batches, load.Batch{Item: item, N: c.Count, Soil: soil})
		return nil
	}
	p.batches[i].N += c.Count
	return nil
}

// readLoadFile reads the counts of a file, or of standard input.
func (a *app) readLoadFile(name string) ([]itemCount, error) {
	const most = 1 << 20
	from := a.In
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return nil, refuse("file", "the load cannot be read: %s: name another file with --file", oneLine(err))
		}
		defer f.Close()
		from = f
	}
	text, err := io.ReadAll(io.LimitReader(from, most+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("read %s: %w", name, err)
	case len(text) > most:
		return nil, refuse("input", "more than a megabyte is no load: give counts of items")
	}
	counts, err := parseLoad(text)
	if err != nil {
		return nil, refuse("input", `%s is not a load (%s): write it like {"mask": 12, "helmet": 4} or [{"item": "mask", "count": 12, "soil": "heavy"}]`, quote(name), err)
	}
	return counts, nil
}

// parseLoad reads an object of counts, or a list of counts with their soil.
func parseLoad(text []byte) (counts []itemCount, err error) {
	if bytes.HasPrefix(bytes.TrimSpace(text), []byte("[")) {
		return counts, decodeStrictly(text, &counts)
	}
	byName := map[string]int{}
	if err := decodeStrictly(text, &byName); err != nil {
		return nil, err
	}
	for name, n := range byName {
		counts = append(counts, itemCount{Item: name, Count: n})
	}
	slices.SortFunc(counts, func(a, b itemCount) int { return strings.Compare(a.Item, b.Item) })
	return counts, nil
}
