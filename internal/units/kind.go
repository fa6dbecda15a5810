package units

import (
	"slices"
	"strings"
)

// A unit is one way to state a quantity of some kind.
type unit struct {
	name  string   // as printed
	also  []string // as typed, folded by plainName; the name itself need not be repeated
	size  float64  // how many stored units make div of this one
	div   float64  // 0 counts as 1; with it 122 °F is 50 °C exactly, and 1 mL 1/1000 L
	start float64  // what this unit reads at the stored unit's zero: 32 for °F
}

// stored returns x of this unit in the unit that the type stores.
func (u *unit) stored(x float64) float64 {
	y := (x - u.start) * u.size
	if u.div != 0 {
		y /= u.div
	}
	return y
}

// shown returns the stored value y in this unit.
func (u *unit) shown(y float64) float64 {
	if u.div != 0 {
		y *= u.div
	}
	return y/u.size + u.start
}

// A face is how one system shows a kind.
type face struct {
	unit     *unit
	step     float64 // rounded to this
	decimals int     // always printed; -1: as many as needed
}

// A kind is everything there is to know about one quantity type.
type kind struct {
	noun    string  // "a volume"
	example string  // how to write one: "64gal or 242L"
	units   []*unit // the first two are offered where both systems show the same
	least   float64 // the smallest that physics allows, in the stored unit
	faces   [2]face // by System
}

// find returns the unit that people mean by name, or nil.
func (k *kind) find(name string) *unit {
	name = plainName(name)
	for _, u := range k.units {
		if name == plainName(u.name) || slices.Contains(u.also, name) {
			return u
		}
	}
	return nil
}

// foldMarks makes one of the several signs that stand for the same thing.
var foldMarks = strings.NewReplacer("²", "2", "³", "3", "º", "°")

// plainName folds case, spaces, raised digits and a closing point. No two
// units of a kind differ in case alone: a bath has no use for a megalitre.
func plainName(name string) string {
	name = foldMarks.Replace(strings.ToLower(name))
	return strings.TrimRight(strings.Join(strings.Fields(name), " "), ".")
}

// allowed lists the units of the kind: "a volume is in gal, qt or L".
func (k *kind) allowed() string {
	names := make([]string, len(k.units))
	for i, u := range k.units {
		names[i] = u.name
	}
	last := len(names) - 1
	return k.noun + " is in " + strings.Join(names[:last], ", ") + " or " + names[last]
}

// face returns how sys shows k; a system that is neither shows as US.
func (k *kind) face(sys System) face {
	if sys == SI {
		return k.faces[SI]
	}
	return k.faces[US]
}

// kindOf returns the one kind that knows the unit name, or nil when none
// does or, as with m, several do.
func kindOf(name string) *kind {
	var found *kind
	for _, k := range kinds {
		if k.find(name) == nil {
			continue
		}
		if found != nil {
			return nil
		}
		found = k
	}
	return found
}
