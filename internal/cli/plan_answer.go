package cli

import (
	"slices"
	"strings"
	"time"

	"bathside/internal/advise"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// planAnswer is what plan --json prints. What is not known is left out.
type planAnswer struct {
	Bath       string            `json:"bath"`
	Now        time.Time         `json:"now"` // the first wash starts
	BathC      units.Temperature `json:"bath_c"`
	SetC       units.Temperature `json:"set_c"`
	Washes     []planWash        `json:"washes"`
	Cycles     int               `json:"cycles"`
	TotalMin   float64           `json:"total_min"` // of ultrasound, without changeovers
	LowerBound int               `json:"lower_bound_cycles"`
	LowerMin   float64           `json:"lower_bound_min"` // with that many washes
	Proved     bool              `json:"proved"`
	BathDone   time.Time         `json:"bath_done_at"`
	ReadyAt    time.Time         `json:"ready_at"` // the last item is back
	KeptOut    []planKept        `json:"kept_out"`
	Needs      []planNeed        `json:"needs"`
	Sets       []time.Time       `json:"sets"` // the first, second, ... mask and pack are back
	PHDrop     *float64          `json:"ph_drop,omitzero"`
	Notes      []string          `json:"notes"`
	After      []string          `json:"after"` // what the washes call for
}

type planWash struct {
	Minutes    float64           `json:"minutes"`
	LongestMin float64           `json:"longest_min"` // of what may stay in least
	Soil       load.Soil         `json:"soil"`        // the dirtiest
	LimitC     units.Temperature `json:"limit_c"`     // the lowest
	StartAt    time.Time         `json:"start_at"`
	OutAt      time.Time         `json:"out_at"`
	BackAt     time.Time         `json:"back_at"`
	MassKg     units.Mass        `json:"mass_kg"`
	DisplacesL units.Volume      `json:"displaces_l"`
	Baskets    []planBasket      `json:"baskets"`
}

type planBasket struct {
	Name  string         `json:"name"`
	Kind  catalog.Basket `json:"kind"`
	Lid   bool           `json:"lid"` // must be clipped
	Items []planItem     `json:"items"`
}

type planItem struct {
	Item  string    `json:"item"`
	Count int       `json:"count"`
	Soil  load.Soil `json:"soil"`

	plural string
}

type planKept struct {
	planItem
	Why string `json:"why"`
}

type planNeed struct {
	Item  string     `json:"item"`
	Count int        `json:"count"`
	By    *time.Time `json:"by,omitzero"` // absent: as soon as can be
	In    bool       `json:"in_plan"`     // so many are in the plan
	At    *time.Time `json:"at,omitzero"` // the last of them is back
	Met   bool       `json:"met"`

	plural string
}

func newPlanAnswer(x *advise.Snapshot, w advise.Washes, never []planKept) planAnswer {
	out := planAnswer{
		Bath: x.Bath.ID, Now: x.Now, BathC: w.Request.Bath.Bath, SetC: w.Request.Bath.Set,
		Washes: []planWash{}, Cycles: len(w.Washes), TotalMin: w.TotalMinutes,
		LowerBound: w.LowerBound, LowerMin: w.LowerMinutes, Proved: w.Proved,
		BathDone: x.Back(w.BathDone), ReadyAt: x.Back(w.AllBack),
		KeptOut: append([]planKept{}, never...), Needs: []planNeed{}, Sets: []time.Time{},
		PHDrop: w.Drop, Notes: slices.Concat([]string{}, w.First, w.Notes), After: append([]string{}, w.After...),
	}
	for _, k := range w.KeptOut {
		b := w.Request.Batches[k.Batch]
		out.KeptOut = append(out.KeptOut, planKept{itemOf(b, b.N), k.Why})
	}
	for _, wash := range w.WashPlan.Washes {
		out.Washes = append(out.Washes, newPlanWash(x, w, wash))
	}
	for _, n := range w.Needs {
		need := newPlanNeed(x, n)
		need.plural = pluralOf(w, n)
		out.Needs = append(out.Needs, need)
	}
	for _, s := range w.Sets {
		out.Sets = append(out.Sets, x.Back(s))
	}
	return out
}

func itemOf(b load.Batch, n int) planItem {
	return planItem{b.Item.ID, n, b.Soil, plural(b.Item, n)}
}

func newPlanWash(x *advise.Snapshot, w advise.Washes, wash load.Wash) planWash {
	out := planWash{
		Minutes: wash.Minutes, LongestMin: wash.Longest, Soil: wash.Dirtiest, LimitC: wash.Limit.Whole(),
		StartAt: x.Back(wash.Start), OutAt: x.Back(wash.Out), BackAt: x.Back(wash.AllBack),
		MassKg: wash.Mass, DisplacesL: wash.Displaces,
	}
	for _, b := range wash.Baskets {
		is := w.Request.Baskets[b.Basket]
		basket := planBasket{Name: is.Name, Kind: is.Kind, Lid: b.Lid}
		for _, l := range b.Lines {
			basket.Items = append(basket.Items, itemOf(w.Request.Batches[l.Batch], l.N))
		}
		out.Baskets = append(out.Baskets, basket)
	}
	return out
}

func newPlanNeed(x *advise.Snapshot, n load.NeedMet) planNeed {
	out := planNeed{Item: n.Item, Count: n.N, In: n.In, Met: n.Met}
	if n.By > 0 {
		by := x.Back(n.By)
		out.By = &by
	}
	if n.In {
		at := x.Back(n.At)
		out.At = &at
	}
	return out
}

// pluralOf names what is needed; what is not in the plan goes by its id.
func pluralOf(w advise.Washes, n load.NeedMet) string {
	for _, b := range w.Request.Batches {
		if b.Item.ID == n.Item {
			return plural(b.Item, n.N)
		}
	}
	return "of " + n.Item
}

// whys is all that is known before a plan, and every reason to keep something
// out, once.
func (p planAnswer) whys(first []string) string {
	all := slices.Clone(first)
	for _, k := range p.KeptOut {
		if !strings.Contains(strings.Join(all, " "), k.Why) {
			all = append(all, k.Why)
		}
	}
	return strings.Join(all, " ")
}

func plural(item catalog.Item, n int) string {
	if n == 1 {
		return strings.ToLower(item.Name)
	}
	return item.Plural
}
