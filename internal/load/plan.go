package load

import (
	"bathside/internal/catalog"
	"bathside/internal/units"
)

// Request is a wash to plan: what came back, and what the station has. Times
// are spans from the start of the first wash. Nothing in it is changed.
type Request struct {
	Batches []Batch
	Bath    Conditions
	Tank    Tank
	Baskets []Basket

	HeavyAlone bool // heavy soil shares no wash with lighter soil; it comes last either way
	Care       Care
	Needs      []Need
	Set        []Part // what makes one member ready; nil is a mask and a pack

	Stop func() bool // as for [Pack]; nil is a search that ends by itself
}

// Batch is a number of like items with like soil.
type Batch struct {
	Item catalog.Item
	N    int
	Soil Soil
}

// Tank is the room there is in the bath.
type Tank struct {
	Water      units.Volume // to the mark
	Freeboard  units.Volume // from the mark to the rim; 0 is not known, and overflow is not looked at
	HalfSlots  int          // a shallow basket takes one, a deep one two
	MaxBaskets int          // in the bath at once; 0 is as many as there is room for
}

// Basket is one make of basket that the station has. What it holds is the
// station's own count of each item; where that is missing, the sizes are laid
// out.
type Basket struct {
	Name  string
	Kind  catalog.Basket // shallow or deep
	Count int            // how many there are
	Holds map[string]int // by item id: 6 masks or 2 helmets; 0 is none at all

	Length, Width, Height units.Length // inside; 0 is not measured
	MaxMass               units.Mass   // 0 is no limit
}

// Care is how the station rinses and dries: its own data. Zero values are no
// time and no limit.
type Care struct {
	Changeover  units.Span            // from one wash to the next
	Rinse       units.Span            // of one piece
	RinsePlaces int                   // pieces at once
	Dry         map[string]units.Span // by item id, until back in service
	DryPlaces   int                   // pieces at once
}

// Need is what must be back first.
type Need struct {
	Item string // id
	N    int
	By   units.Span // 0 is as soon as can be
}

// Part is how many of an item one member needs.
type Part struct {
	Item string // id
	N    int
}

// WashPlan is the washes in the order to run them.
type WashPlan struct {
	Washes  []Wash
	KeptOut []KeptOut

	TotalMinutes float64 // of ultrasound, without changeovers
	LowerBound   int     // fewer washes are impossible
	LowerMinutes float64 // with that many washes, fewer minutes are impossible
	Proved       bool    // no plan has fewer washes, or as many and fewer minutes

	BathDone units.Span // the last basket is out
	AllBack  units.Span // the last item is back in service
	Needs    []NeedMet
	Sets     []units.Span // when the first, second, ... complete set is back
	Notes    []string     // sentences: what was not looked at, or goes against a rule
}

// Wash is one load.
type Wash struct {
	Baskets   []LoadedBasket
	Minutes   float64 // the longest that anything in it wants
	Longest   float64 // the shortest longest-minutes of anything in it
	Dirtiest  Soil
	Limit     catalog.Limit // the lowest of anything in it
	Mass      units.Mass
	Displaces units.Volume
	Start     units.Span
	Out       units.Span
	AllBack   units.Span // rinsed and dry
}

// LoadedBasket is one basket of a wash.
type LoadedBasket struct {
	Basket int // index in the request
	Lid    bool
	Lines  []Line
	Layers [][]Spot // Of is a piece, counted through Lines; nil where sizes are missing, or hold less than the station's count
}

// Line is some pieces of one batch.
type Line struct {
	Batch int // index in the request
	N     int
}

// KeptOut is a batch that the plan leaves out, and why, as the crew reads it.
type KeptOut struct {
	Batch int
	Why   string
}

// NeedMet says when a need is met.
type NeedMet struct {
	Need
	In  bool       // so many are in the plan at all
	At  units.Span // the last of them is back in service, when In
	Met bool       // that is by its time
}

// Plan packs the batches into washes and puts the washes in order. Items share
// a wash only where none of them wants more minutes than another may have;
// nothing is lifted out before the end. Batches that may not go into this
// bath, or into no basket, are kept out. The error names a request that cannot
// be planned.
func Plan(r Request) (WashPlan, error) {
	if err := r.check(); err != nil {
		return WashPlan{}, err
	}
	var plan WashPlan
	p, err := newPlanner(r, &plan)
	if err != nil {
		return WashPlan{}, err
	}
	s := p.search()
	s.run()
	plan.TotalMinutes, plan.Proved = s.best.time, s.proved
	plan.LowerBound, plan.LowerMinutes = s.bound.cycles, s.bound.time
	for _, f := range s.best.fills {
		plan.Washes = append(plan.Washes, p.wash(f))
	}
	r.arrange(&plan)
	r.note(&plan)
	return plan, nil
}
