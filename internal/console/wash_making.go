package console

import (
	"slices"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/load"
)

// making is the load that is being put together, and what it comes to.
type making struct {
	cat   *catalog.Catalog
	x     *advise.Snapshot
	n     []int // of each item type of the catalog
	rest  []int // the same, of what waits for later washes of a plan
	soil  int
	ticks map[tick]bool

	is      advise.Loading
	err     error // why nothing at all can be started
	stowed  advise.Washes
	stowErr error // why nothing is known of baskets
}

// tick is something to look at before an item goes in; the lids belong to no
// item.
type tick struct{ item, say string }

var lidsTick = tick{say: "lid clipped over what floats"}

const mostOfType = 99

func newMaking(cat *catalog.Catalog) *making {
	m := &making{cat: cat, soil: 1, ticks: map[tick]bool{}}
	if cat != nil {
		m.n, m.rest = make([]int, len(cat.Items)), make([]int, len(cat.Items))
	}
	return m
}

func (m *making) setSnapshot(x *advise.Snapshot) {
	m.x = x
	m.stow()
	m.look()
}

// change adds to the count of an item. What was ticked for it is looked at
// again once there is more of it.
func (m *making) change(i, by int) {
	was := m.n[i]
	m.n[i] = max(0, min(mostOfType, was+by))
	if m.n[i] > was || m.n[i] == 0 {
		for t := range m.ticks {
			if t.item == m.cat.Items[i].ID || t == lidsTick && m.cat.Items[i].Floats {
				delete(m.ticks, t)
			}
		}
	}
	m.stow()
	m.look()
}

func (m *making) nextSoil() {
	m.soil = (m.soil + 1) % len(soils)
	m.look()
}

// clear takes everything out again.
func (m *making) clear() {
	clear(m.n)
	clear(m.rest)
	clear(m.ticks)
	m.stow()
	m.look()
}

// take makes one wash the load: the rest waits.
func (m *making) take(wash []load.Batch) {
	m.putBack()
	m.rest, m.n = m.n, make([]int, len(m.n))
	for _, b := range wash {
		i := slices.IndexFunc(m.cat.Items, func(item catalog.Item) bool { return item.ID == b.Item.ID })
		m.n[i] += b.N
		m.rest[i] -= b.N
	}
	clear(m.ticks)
	m.stow()
	m.look()
}

// started takes out what went into the bath, and puts what waited in its place.
func (m *making) started(loads []bath.Load) {
	for i, item := range m.cat.Items {
		for _, l := range loads {
			if l.Item == item.ID {
				m.n[i] = max(0, m.n[i]-l.Count)
			}
		}
	}
	clear(m.ticks)
	m.putBack()
}

// putBack has all of the night in sight again.
func (m *making) putBack() {
	for i, n := range m.rest {
		m.n[i] += n
	}
	clear(m.rest)
	m.stow()
	m.look()
}

// waits counts what a later wash takes.
func (m *making) waits() (n int) {
	for _, rest := range m.rest {
		n += rest
	}
	return n
}

func (m *making) empty() bool { return advise.Pieces(m.batches()) == 0 }

func (m *making) batches() (all []load.Batch) {
	for i, n := range m.n {
		if n > 0 {
			all = append(all, load.Batch{Item: m.cat.Items[i], N: n, Soil: soils[m.soil]})
		}
	}
	return all
}

// toTick is one line of the checks.
type toTick struct {
	tick
	name  string // of the item
	check catalog.Check
}

// checks is what is ticked before the load goes in.
func (m *making) checks() (all []toTick) {
	floats := false
	for _, b := range m.batches() {
		for _, c := range b.Item.Checks {
			all = append(all, toTick{tick{b.Item.ID, c.Say}, b.Item.Name, c})
		}
		floats = floats || b.Item.Floats
	}
	if floats {
		all = append(all, toTick{tick: lidsTick, check: catalog.Check{Say: lidsTick.say, Why: "it comes up out of the bath, and is not washed there"}})
	}
	return all
}

// unticked counts the checks that nobody ticked yet.
func (m *making) unticked() (n int) {
	for _, c := range m.checks() {
		if !m.ticks[c.tick] {
			n++
		}
	}
	return n
}

func (m *making) toggle(t tick) {
	m.ticks[t] = !m.ticks[t]
	m.look()
}

// look has the load judged anew.
func (m *making) look() {
	if m.x == nil {
		return
	}
	looked := !slices.ContainsFunc(m.checks(), func(c toTick) bool { return c.tick != lidsTick && !m.ticks[c.tick] })
	m.is, m.err = m.x.Loading(advise.LoadAsk{Batches: m.batches(), Checked: looked, Lids: m.ticks[lidsTick]})
}

// stow lays it into the baskets anew.
func (m *making) stow() {
	if m.x != nil {
		m.stowed, m.stowErr = m.x.Stow(m.batches())
	}
}
