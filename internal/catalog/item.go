package catalog

import (
	"math"

	"bathside/internal/units"
)

// Lid says whether the basket is closed over an item.
type Lid string

// The three lid words.
const (
	LidMust     Lid = "must" // the item floats
	LidOptional Lid = "optional"
	LidNone     Lid = "none" // the item sinks or stands out of the basket
)

// Basket says which depth of basket an item goes in.
type Basket string

// The three basket words, and one for what never goes in.
const (
	BasketShallow Basket = "shallow"
	BasketDeep    Basket = "deep"
	BasketEither  Basket = "either"
	BasketNone    Basket = "none"
)

// Halves is the room in the bath that a basket takes: two shallow ones go where
// a deep one does.
func (b Basket) Halves() int {
	if b == BasketDeep {
		return 2
	}
	return 1
}

// Item is one type of item that may be washed, such as masks or cylinders.
type Item struct {
	ID       string // as typed in commands: "mask"
	Name     string // as on screen: "Mask"
	Plural   string // in a sentence: "masks"
	Aliases  []string
	Standard string // what governs its care

	Minutes   Minutes
	Limit     Limit
	Floats    bool
	Aluminium bool // has bare aluminium that a soap without inhibitor attacks
	Lid       Lid
	Basket    Basket

	Checks []Check // before it goes in, in order
	Care   []Step  // after the wash, in order

	// One piece, roughly: from memory, for planning a load only.
	Length, Width, Height units.Length
	Mass                  units.Mass
	Displaces             units.Volume // how far it raises the level when under water
}

// Minutes is how long an item is washed at the bath's working temperature.
type Minutes struct {
	Light, Normal, Heavy float64 // by soil
	Longest              float64 // never beyond, whatever the bath
	Source               string
}

// Limit is the hottest bath that an item may go in.
type Limit struct {
	At      units.Temperature
	Printed string // as its source prints it: "110 F"
	Source  string
}

// Hottest is the bath temperature up to which an item may go in. Sources print
// a whole °F beside a whole °C rounded down (110 F, 43 C). A bath counts as too
// hot when it is half a degree above that °C, and always above what is printed:
// 110 F passes, and a cylinder's 125 F ends at 51.5 °C.
func (l Limit) Hottest() units.Temperature {
	const margin = 0.5 // °C
	return min(l.At, l.Whole()+margin)
}

// Whole is the limit in whole °C, rounded down as sources print it beside °F:
// 110 F is 43, 125 F is 51.
func (l Limit) Whole() units.Temperature {
	return units.Temperature(math.Floor(float64(l.At) + 1e-9)) // a hair that converting °F leaves
}

// readItem reads one [[item]] that may be washed and checks what its fields say together.
func readItem(t *table) Item {
	item := Item{
		ID:       t.id(),
		Name:     t.text("name"),
		Plural:   t.text("plural"),
		Aliases:  t.texts("aliases"),
		Standard: t.text("standard"),
		Minutes: Minutes{
			Light:   t.number("light"),
			Normal:  t.number("normal"),
			Heavy:   t.number("heavy"),
			Longest: t.number("longest"),
			Source:  t.text("minutes_source"),
		},
		Floats:    t.flag("floats"),
		Aluminium: t.has("aluminium") && t.flag("aluminium"),
		Lid:       Lid(t.word("lid", string(LidMust), string(LidOptional), string(LidNone))),
		Basket:    Basket(t.word("basket", string(BasketShallow), string(BasketDeep), string(BasketEither))),
		Limit:     readLimit(t),
		Checks:    subtables(t, "checks", `{ say = "...", why = "..." }`, readCheck),
		Care:      subtables(t, "care", `{ step = "rinse", say = "..." }`, readStep),
		Mass:      quantity[units.Mass](t, "mass", "3 lb"),
		Displaces: quantity[units.Volume](t, "displaces", "1.5 L"),
	}
	item.Length, item.Width, item.Height = readSize(t)
	checkMinutes(t, item.Minutes)
	if item.Floats && item.Lid != LidMust {
		t.wrong("lid", `"lid" is %q, but what floats must have one; write "must"`, item.Lid)
	}
	if len(item.Care) > 0 && item.Care[0].ID != "rinse" {
		t.wrong("care", `"care" begins with %q; write "rinse" first, soap must not dry on`, item.Care[0].ID)
	}
	return item
}

// checkMinutes notes minutes that fall as the soil gets heavier.
func checkMinutes(t *table, m Minutes) {
	switch {
	case m.Light == 0 || m.Normal == 0 || m.Heavy == 0 || m.Longest == 0: // noted already
	case m.Normal < m.Light:
		t.wrong("normal", `"normal" is %v, shorter than light, %v; write no less`, m.Normal, m.Light)
	case m.Heavy < m.Normal:
		t.wrong("heavy", `"heavy" is %v, shorter than normal, %v; write no less`, m.Heavy, m.Normal)
	case m.Longest < m.Heavy:
		t.wrong("longest", `"longest" is %v, shorter than heavy, %v; write no less`, m.Longest, m.Heavy)
	}
}

func readLimit(t *table) Limit {
	printed := t.text("limit")
	limit := Limit{Printed: printed, Source: t.text("limit_source")}
	if printed != "" {
		limit.At = parse[units.Temperature](t, "limit", printed)
	}
	return limit
}

func readSize(t *table) (length, width, height units.Length) {
	sides := t.texts("size")
	if len(sides) != 3 {
		t.wrong("size", `"size" has %d sides; write length, width, height such as ["9 in", "7 in", "6 in"]`, len(sides))
		return 0, 0, 0
	}
	side := func(i int) units.Length { return parse[units.Length](t, "size", sides[i]) }
	return side(0), side(1), side(2)
}
