package advise

import (
	"slices"
	"strings"

	"bathside/internal/bath"
)

// GearLine is a piece of gear as a list shows it.
type GearLine struct {
	bath.Piece
	Where  string
	Clocks []Clock
}

// Gear lists the tagged gear of the station, by item type and tag.
func (x *Snapshot) Gear() []GearLine {
	var out []GearLine
	for _, p := range x.State.Gear {
		out = append(out, GearLine{p, x.State.Where(p), Clocks(p, x.Now, x.Times)})
	}
	slices.SortStableFunc(out, func(a, b GearLine) int {
		if c := strings.Compare(a.Item, b.Item); c != 0 {
			return c
		}
		return naturally(a.Tag, b.Tag)
	})
	return out
}

// naturally compares tags as people count: M-2 before M-12.
func naturally(a, b string) int {
	head, m, okA := endNumber(a)
	other, n, okB := endNumber(b)
	if okA && okB && head == other {
		return m - n
	}
	return strings.Compare(a, b)
}

// endNumber parts a tag that ends with a number.
func endNumber(s string) (head string, n int, ok bool) {
	i := len(s)
	for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
		i--
	}
	if i == len(s) || len(s)-i > 9 {
		return s, 0, false
	}
	for _, r := range s[i:] {
		n = 10*n + int(r-'0')
	}
	return s[:i], n, true
}
