package advise

import (
	"fmt"
	"math"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// WashesAsk is what is to be washed, and what somebody says beside the log
// book.
type WashesAsk struct {
	Batches []load.Batch
	Baskets []load.Basket     // instead of those on file; nil is those
	Bath    units.Temperature // as measured now; NaN is as in the log book
	Set     units.Temperature // 0 is the one in force
	Needs   []load.Need       // by spans from now
	Care    load.Care         // as the station rinses and dries
	Heavy   bool              // heavy soil goes alone
	Stop    func() bool       // as for load.Plan
}

// Washes is a plan for one bath, from now on.
type Washes struct {
	load.WashPlan
	Request load.Request
	First   []string // sentences: what to know before the first wash
	After   []string // sentences: what the washes call for

	// Drop is by how much the washes are expected to lower the pH, by the trend
	// of this fill and those before; nil where there is none.
	Drop *float64
}

// measuredStands is how long a measured bath temperature counts.
const measuredStands = 15 * time.Minute

// PlanWashes plans the washes of a bath as it stands. It starts nothing: each
// start is still gated. The error says what cannot be planned.
func (x *Snapshot) PlanWashes(ask WashesAsk) (Washes, error) {
	w := Washes{Request: load.Request{
		Baskets: ask.Baskets, HeavyAlone: ask.Heavy, Care: ask.Care, Needs: ask.Needs, Stop: ask.Stop,
	}}
	var outside []load.KeptOut
	for i, b := range ask.Batches {
		item, why := x.byPaper(b.Item)
		b.Item = item
		if why != "" {
			outside = append(outside, load.KeptOut{Batch: i, Why: why})
			b.N = 0
		}
		w.Request.Batches = append(w.Request.Batches, b)
	}
	w.First = x.beforeWashes()
	x.planBath(ask, &w)
	x.planTank(&w)
	plan, err := load.Plan(w.Request)
	if err != nil {
		return Washes{}, err
	}
	for _, k := range outside {
		w.Request.Batches[k.Batch].N = ask.Batches[k.Batch].N
	}
	plan.KeptOut = append(outside, plan.KeptOut...)
	w.WashPlan = plan
	if x.Trend != nil {
		w.Drop = new(max(0, -x.Trend.Fit.Mean()[2]) * float64(len(plan.Washes)))
	}
	w.After = x.afterWashes(w)
	return w, nil
}

// afterWashes is a reading where the limit is to be expected, and the filter
// run of a day on which gear was washed.
func (x *Snapshot) afterWashes(w Washes) (say []string) {
	n := len(w.WashPlan.Washes)
	if n == 0 {
		return nil
	}
	if down, limit := x.PH.Drop, x.PH.Limit; down != nil && w.Drop != nil && *down < limit && *down+*w.Drop >= limit {
		at := int(math.Ceil((limit - *down) / (*w.Drop / float64(n))))
		say = append(say, fmt.Sprintf("Read the pH after wash %d: it is likely down by %.2f there.", at, limit))
	}
	return append(say, "Run the filter for about 30 min after the last wash, ultrasound off (common practice, no source).")
}

// beforeWashes is what keeps the first wash from starting now.
func (x *Snapshot) beforeWashes() []string {
	var notes []string
	if tag := x.TagSay(); tag != "" {
		notes = append(notes, tag+". Wake the gear officer: only they lift it.")
	}
	if !x.Open {
		notes = append(notes, "The bath is empty: fill it, add soap and warm it first.")
	}
	return notes
}

// planBath puts in how warm the bath is. One that was not measured of late is
// planned as at its set point, and one that is heated is as warm as that before
// the last wash.
func (x *Snapshot) planBath(ask WashesAsk, w *Washes) {
	in := load.Conditions{Bath: ask.Bath, Set: ask.Set, PerTenC: x.State.Site.Lengthen(), Units: x.Sys}
	if in.Set == 0 {
		in.Set = x.Set()
	}
	t := x.Temp
	switch {
	case !math.IsNaN(float64(ask.Bath)):
		if units.Delta(in.Set-in.Bath) > 0.5 {
			w.First = append(w.First, fmt.Sprintf("Planned as at %s to the end, though the set point is %s: hold the bath there, and measure it before each wash.", x.Sys.Temp(in.Bath), x.Sys.Temp(in.Set)))
		}
	case t == nil || x.Now.Sub(t.At) > measuredStands:
		in.Bath = in.Set
		w.First = append(w.First, fmt.Sprintf("The bath was not measured in the last 15 min: planned as at its set point, %s. Measure it before each wash.", x.Sys.Temp(in.Set)))
	default:
		in.Bath = t.C
		if t.HeaterOn == nil || *t.HeaterOn {
			in.Peak = in.Set
		}
	}
	w.Request.Bath = in
}

// planTank puts in the room there is. How many baskets go in at once is as the
// station says of each make by itself.
func (x *Snapshot) planTank(w *Washes) {
	w.Request.Tank = load.Tank{Water: x.Bath.Tank.VolumeL, Freeboard: x.Bath.Tank.Room()}
	if w.Request.Baskets == nil {
		for _, b := range x.Bath.Baskets {
			w.Request.Baskets = append(w.Request.Baskets, planBasket(b))
			if b.AtOnce == nil && b.Has() > 1 {
				w.First = append(w.First, fmt.Sprintf("How many of basket %s go in the bath at once is not on file: planned with one.", b.Name))
			}
		}
	}
	for _, b := range w.Request.Baskets {
		w.Request.Tank.HalfSlots = max(w.Request.Tank.HalfSlots, b.Count*b.Kind.Halves())
	}
}

// planBasket is a make on file. Those that do not go in the bath together count
// as one: the others wait for the next wash.
func planBasket(b bath.Basket) load.Basket {
	holds := map[string]int{}
	for _, l := range b.Holds {
		holds[l.Item] = l.Count
	}
	return load.Basket{
		Name: b.Name, Kind: catalog.Basket(b.Make), Count: b.Together(), Holds: holds,
		Length: b.LengthM, Width: b.WidthM, Height: b.HeightM,
	}
}

// byPaper is an item as its maker's paper on file has it, or why it stays out.
// A limit in the paper stands instead of the catalog's, with its margin.
func (x *Snapshot) byPaper(item catalog.Item) (catalog.Item, string) {
	p, ok := x.State.Paper(item.ID, x.Now)
	switch {
	case !ok || p.State == bath.PaperPending:
		return item, ""
	case p.State == bath.PaperOutside:
		return item, catalog.KeptOut("this station washes "+item.Plural+" outside the bath", "wash them by hand", "the gear officer if in doubt")
	}
	if p.MaxC != nil {
		printed := strings.Replace(x.Sys.Temp(*p.MaxC), "°", "", 1)
		item.Limit = catalog.Limit{At: *p.MaxC, Printed: printed, Source: "the maker's paper: " + p.Title}
	}
	if p.Longest > 0 {
		item.Minutes.Longest = min(item.Minutes.Longest, p.Longest.Min())
		item.Minutes.Light = min(item.Minutes.Light, item.Minutes.Longest)
		item.Minutes.Normal = min(item.Minutes.Normal, item.Minutes.Longest)
		item.Minutes.Heavy = min(item.Minutes.Heavy, item.Minutes.Longest)
	}
	return item, ""
}

// Back is when a span of the plan is over.
func (x *Snapshot) Back(s units.Span) time.Time { return x.Now.Add(s.Duration()) }
