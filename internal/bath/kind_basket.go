package bath

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// The two kinds of basket.
const (
	BasketShallow = "shallow"
	BasketDeep    = "deep"
)

// Basket is one make of basket of a bath. An entry carries only what changes;
// Bath.Baskets has each make together, by its name. Nothing about a basket is
// preset: what it holds is the station's own count of each item by itself, 6
// masks or 2 helmets.
type Basket struct {
	Name    string       `json:"name"`
	Make    string       `json:"kind,omitzero"` // shallow or deep
	Count   *int         `json:"count,omitzero"`
	AtOnce  *int         `json:"at_once,omitzero"` // of them in the bath at the same time
	Holds   []Load       `json:"holds,omitempty"`
	LengthM units.Length `json:"length_m,omitzero"` // inside
	WidthM  units.Length `json:"width_m,omitzero"`
	HeightM units.Length `json:"height_m,omitzero"`
	Gone    bool         `json:"gone,omitzero"`
}

// Has is how many of the make there are: one unless counted.
func (b Basket) Has() int { return or(b.Count, 1) }

// Together is how many of the make go in the bath at the same time: one unless
// the station has said.
func (b Basket) Together() int { return or(b.AtOnce, 1) }

var basketSpec = &Spec{
	Kind: "basket", Title: "Add or change a basket", Scope: OfBath, Role: Officer,
	New: func() Body { return new(Basket) },
	Fields: []Field{
		field("name", "name", "deep", func(b *Basket) *string { return &b.Name }).help("what you call it; the same name again changes it"),
		field("kind", "kind", BasketDeep, func(b *Basket) *string { return &b.Make }).words(BasketShallow, BasketDeep).optional("two shallow ones take the room of a deep one"),
		field("count", "how many", "2", func(b *Basket) **int { return &b.Count }).optional("there are of it; one, if left out"),
		field("at-once", "in the bath at once", "1", func(b *Basket) **int { return &b.AtOnce }).optional("of it, with no other basket in; one, if left out"),
		field("holds", "holds", "mask=6, helmet=2", func(b *Basket) *[]Load { return &b.Holds }).optional("your own counts, each item by itself: 6 masks or 2 helmets"),
		field("length", "length inside", "14in", func(b *Basket) *units.Length { return &b.LengthM }).optional("to lay out what is not counted"),
		field("width", "width inside", "11in", func(b *Basket) *units.Length { return &b.WidthM }).optional("to lay out what is not counted"),
		field("height", "height inside", "5in", func(b *Basket) *units.Length { return &b.HeightM }).optional("to lay out what is not counted"),
		field("gone", "no longer here", "yes", func(b *Basket) *bool { return &b.Gone }),
	},
}

func (b *Basket) spec() *Spec { return basketSpec }

func (b *Basket) check(v view, _ Entry) error {
	if b.Name == "" {
		return refuse("missing", "which basket is it? Give it a name, like --name deep")
	}
	i := v.b.basket(b.Name)
	switch {
	case b.Gone && i < 0:
		return refuse("input", "there is no basket %q at bath %s: %s", short(b.Name), v.b.ID, v.b.basketNames())
	case b.Gone:
		return nil
	}
	if len(b.Holds) > 0 {
		if err := checkLoads(b.Holds); err != nil {
			return err
		}
	}
	next := *b
	if i >= 0 {
		next = v.b.Baskets[i]
		merge(basketSpec, &next, b)
	}
	return next.sane(v.sys)
}

// mostBaskets and longestBasket are more than a bath has.
const (
	mostBaskets   = 64
	longestBasket = units.Length(3)
)

// sane holds for a basket as a whole.
func (b Basket) sane(sys sysText) error {
	sized := b.LengthM > 0 && b.WidthM > 0 && b.HeightM > 0
	switch {
	case b.Make == "":
		return refuse("missing", "is basket %q shallow or deep? Give it like --kind deep", short(b.Name))
	case b.Has() < 1 || b.Has() > mostBaskets:
		return refuse("input", "%d of basket %q is not possible: 1 to %d are allowed; one that is lost is --gone", b.Has(), short(b.Name), mostBaskets)
	case b.Together() < 1 || b.Together() > b.Has():
		return refuse("input", "%d of basket %q at once is not possible: there is %d of it; give 1 or more, and --count first", b.Together(), short(b.Name), b.Has())
	case !sized && b.LengthM+b.WidthM+b.HeightM > 0:
		return refuse("missing", "basket %q wants all three of its inner sizes, or none: give --length, --width and --height", short(b.Name))
	case max(b.LengthM, b.WidthM, b.HeightM) > longestBasket:
		return refuse("input", "a basket of %s goes in no bath: check the unit", sys.sys.Text(max(b.LengthM, b.WidthM, b.HeightM)))
	case !sized && len(b.Holds) == 0:
		return refuse("missing", "what does basket %q hold? Give your own counts like --holds mask=6,helmet=2", short(b.Name))
	}
	return nil
}

func (b *Basket) apply(s *State, e Entry) {
	at, err := s.Bath(e.Bath)
	if err != nil || e.Bath == "" {
		return // a bath nobody set up: an imported file may hold one
	}
	i := at.basket(b.Name)
	switch {
	case b.Gone && i >= 0:
		at.Baskets = slices.Delete(at.Baskets, i, i+1)
	case b.Gone:
	case i >= 0:
		merge(basketSpec, &at.Baskets[i], b)
	default:
		at.Baskets = append(at.Baskets, *b)
	}
}

// basketShare is the least part of the room for baskets that one piece of an
// item takes, by the station's counts; 0 where they do not say: no make counts
// it, or one whose sizes are on file may hold it besides.
func (b *Bath) basketShare(item string) float64 {
	least, halves := math.Inf(1), 0
	for _, x := range b.Baskets {
		takes := catalog.Basket(x.Make).Halves()
		halves = max(halves, x.Together()*takes)
		i := slices.IndexFunc(x.Holds, func(l Load) bool { return l.Item == item })
		switch {
		case i >= 0:
			least = min(least, float64(takes)/float64(x.Holds[i].Count))
		case x.LengthM > 0:
			least = 0
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least / float64(halves)
}

// basket gives the index of a make by its name, or -1.
func (b *Bath) basket(name string) int {
	return slices.IndexFunc(b.Baskets, func(x Basket) bool { return strings.EqualFold(x.Name, name) })
}

func (b *Bath) basketNames() string {
	var names []string
	for _, x := range b.Baskets {
		names = append(names, x.Name)
	}
	if len(names) == 0 {
		return "none is on file"
	}
	return "it has " + strings.Join(names, ", ")
}

func (b *Basket) say(sys units.System) string {
	if b.Gone {
		return "basket " + b.Name + " is gone"
	}
	s := "basket " + b.Name
	if b.Make != "" {
		s += ", " + b.Make
	}
	if b.Count != nil {
		s += fmt.Sprintf(", %d of it", *b.Count)
	}
	if b.AtOnce != nil {
		s += fmt.Sprintf(", %d in the bath at once", *b.AtOnce)
	}
	if b.LengthM > 0 {
		s += fmt.Sprintf(", %s by %s by %s inside", sys.Text(b.LengthM), sys.Text(b.WidthM), sys.Text(b.HeightM))
	}
	if len(b.Holds) > 0 {
		s += ": " + strings.Join(holdsList(b.Holds), " or ")
	}
	return s
}

// holdsList says each count by itself: "Mask × 6".
func holdsList(loads []Load) []string {
	var all []string
	for _, l := range loads {
		all = append(all, loadSay([]Load{l}))
	}
	return all
}
