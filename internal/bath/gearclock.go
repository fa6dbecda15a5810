package bath

import (
	"fmt"
	"time"
)

// Elements are the item types that NFPA 1851 covers among those that a bath
// may take; packs, masks and cylinders have rules of their own (second-hand,
// trade article on the 2020 edition).
var elements = map[string]bool{"helmet": true, "soft-parts": true}

// Element reports whether a piece is an element of a protective ensemble.
func (g Gear) Element() bool { return elements[g.Item] }

// The clocks of gear, in months.
const (
	lifeOfElement  = 120 // from manufacture: NFPA 1851, by a city's service agreement of 2019
	lifeOfWrapped  = 180 // carbon and other wraps: a fire department's cylinder manual of 2025
	requalifyEvery = 60  // 49 CFR 180.209 Table 1
	requalifyWraps = 36  // hoop, fibreglass and aramid wraps: an industry service page, second-hand
)

// RetireBy is the last month in which an element is used; false where it is
// none, or when it was made is not known.
func (g Gear) RetireBy() (Month, bool) {
	if !g.Element() || g.Made == (Month{}) {
		return Month{}, false
	}
	return g.Made.Add(lifeOfElement), true
}

// RequalifyBy is the month by whose end a cylinder is requalified, counted from
// its last stamp or, before there is one, from its making.
func (g Gear) RequalifyBy() (Month, bool) {
	from := g.Requalified
	if from == (Month{}) {
		from = g.Made
	}
	if g.Item != "cylinder" || from == (Month{}) {
		return Month{}, false
	}
	if g.Built == BuiltWrapped {
		return from.Add(requalifyWraps), true
	}
	return from.Add(requalifyEvery), true
}

// LifeEnds is the last month of a piece whose record says so, or of a wrapped
// cylinder. Steel and aluminium have no fixed life.
func (g Gear) LifeEnds() (Month, bool) {
	m := g.Ends
	if g.Item == "cylinder" && (g.Built == BuiltCarbon || g.Built == BuiltWrapped) && g.Made != (Month{}) {
		m = earlier(m, g.Made.Add(lifeOfWrapped))
	}
	return m, m != Month{}
}

// Expired says why a piece may not go back in service at t; "" where nothing
// is against it.
func (g Gear) Expired(t time.Time) string {
	if m, ok := g.RetireBy(); ok && m.Over(t) {
		return fmt.Sprintf("it was made in %s and was to be retired by %s", g.Made.Say(), m.Say())
	}
	if m, ok := g.LifeEnds(); ok && m.Over(t) {
		return "its life ended with " + m.Say()
	}
	if m, ok := g.RequalifyBy(); ok && m.Over(t) {
		return "it was to be requalified by " + m.Say()
	}
	return ""
}
