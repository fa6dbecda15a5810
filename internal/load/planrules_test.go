package load_test

import (
	"fmt"
	"slices"
	"testing"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"

	"pgregory.net/rapid"
)

// checkPlan holds a plan against the rules, counted anew from its baskets.
func checkPlan(t fataler, r load.Request, got load.WashPlan) {
	t.Helper()
	in := make([]int, len(r.Batches))
	total := 0.0
	for _, w := range got.Washes {
		checkWash(t, r, w, in)
		total += w.Minutes
	}
	for _, k := range got.KeptOut {
		in[k.Batch] += r.Batches[k.Batch].N
	}
	for i, b := range r.Batches {
		if in[i] != b.N {
			t.Fatalf("batch %d: %d of %d in the plan or kept out", i, in[i], b.N)
		}
	}
	n := len(got.Washes)
	if total != got.TotalMinutes || n < got.LowerBound || n == got.LowerBound && total < got.LowerMinutes-1e-6 || got.Proved && n != got.LowerBound {
		t.Fatalf("%d washes of %v min in all, said %v, bound %d and %v, proved %v", n, total, got.TotalMinutes, got.LowerBound, got.LowerMinutes, got.Proved)
	}
}

// checkWash adds to in what is in the wash, by batch.
func checkWash(t fataler, r load.Request, w load.Wash, in []int) {
	t.Helper()
	slots, mass, up := 0, units.Mass(0), units.Volume(0)
	used := map[int]int{}
	for _, b := range w.Baskets {
		used[b.Basket]++
		slots++
		if r.Baskets[b.Basket].Kind == catalog.BasketDeep {
			slots++
		}
		for _, line := range b.Lines {
			batch := r.Batches[line.Batch]
			in[line.Batch] += line.N
			mass += units.Mass(line.N) * batch.Item.Mass
			up += units.Volume(line.N) * batch.Item.Displaces
			checkStay(t, r, w, batch)
		}
		checkLoaded(t, r, b)
	}
	most := units.Mass(float64(r.Tank.Water) / 2)
	switch {
	case slots > r.Tank.HalfSlots || r.Tank.MaxBaskets > 0 && len(w.Baskets) > r.Tank.MaxBaskets:
		t.Fatalf("%d baskets in %d half slots", len(w.Baskets), slots)
	case mass > most:
		t.Fatalf("%v kg in %v L of water", mass, r.Tank.Water)
	case r.Tank.Freeboard > 0 && up > r.Tank.Freeboard+1e-6:
		t.Fatalf("%v L pushed up, %v to the rim", up, r.Tank.Freeboard)
	}
	for i, n := range used {
		if n > r.Baskets[i].Count {
			t.Fatalf("%d of %d baskets %q", n, r.Baskets[i].Count, r.Baskets[i].Name)
		}
	}
}

// checkStay holds the minutes and the heat of one batch.
func checkStay(t fataler, r load.Request, w load.Wash, b load.Batch) {
	t.Helper()
	alone, err := load.Pick(b.Item, b.Soil, r.Bath)
	switch {
	case err != nil:
		t.Fatalf("%v", err)
	case !alone.Allowed:
		t.Fatalf("%s in the bath: %v", b.Item.ID, alone.Refusals)
	case w.Minutes > b.Item.Minutes.Longest || w.Minutes < alone.Minutes:
		t.Fatalf("%s in for %v min, wants %v and may have %v", b.Item.ID, w.Minutes, alone.Minutes, b.Item.Minutes.Longest)
	case w.Limit.Hottest() > b.Item.Limit.Hottest() || w.Longest > b.Item.Minutes.Longest:
		t.Fatalf("limit %v and longest %v of the wash are above those of %s", w.Limit, w.Longest, b.Item.ID)
	}
}

// checkLoaded holds lid, depth, counts and layout of one basket.
func checkLoaded(t fataler, r load.Request, b load.LoadedBasket) {
	t.Helper()
	basket := r.Baskets[b.Basket]
	var must, open, uncounted bool
	var parts float64
	mass := units.Mass(0)
	var items []catalog.Item
	for _, line := range b.Lines {
		item := r.Batches[line.Batch].Item
		must, open = must || item.Lid == catalog.LidMust, open || item.Lid == catalog.LidNone
		mass += units.Mass(line.N) * item.Mass
		if n, ok := basket.Holds[item.ID]; ok {
			parts += float64(line.N) / float64(n)
		} else {
			uncounted = true
		}
		if item.Basket != catalog.BasketEither && item.Basket != basket.Kind {
			t.Fatalf("%s in a %s basket", item.ID, basket.Kind)
		}
		items = append(items, slices.Repeat([]catalog.Item{item}, line.N)...)
	}
	switch {
	case len(items) == 0:
		t.Fatalf("an empty basket")
	case must != b.Lid || must && open:
		t.Fatalf("lid needed %v, on %v, in the way %v", must, b.Lid, open)
	case parts > 1+1e-6:
		t.Fatalf("basket %q is %v full", basket.Name, parts)
	case basket.MaxMass > 0 && mass > basket.MaxMass+1e-9:
		t.Fatalf("basket %q holds %v kg", basket.Name, mass)
	case uncounted && b.Layers == nil:
		t.Fatalf("basket %q is not laid out", basket.Name)
	}
	if b.Layers != nil {
		checkLayers(t, basket, items, b.Layers)
	}
}

// checkLayers holds every piece inside the basket, beside the others, at its
// own size, and the tall ones on both layers in the same place.
func checkLayers(t fataler, b load.Basket, items []catalog.Item, layers [][]load.Spot) {
	t.Helper()
	at := map[int][]load.Spot{}
	for _, spots := range layers {
		checkSpots(t, b.Length, b.Width, spots)
		for _, s := range spots {
			at[s.Of] = append(at[s.Of], s)
		}
	}
	for i, item := range items {
		spots, tall := at[i], b.Kind == catalog.BasketDeep && item.Height > b.Height/2+1e-6
		if tall && (len(spots) != 2 || spots[0] != spots[1]) || !tall && len(spots) != 1 {
			t.Fatalf("%s, tall %v, lies at %v", item.ID, tall, spots)
		}
		long, short := max(spots[0].Length, spots[0].Width), min(spots[0].Length, spots[0].Width)
		inside := item.Lid == catalog.LidNone && long >= max(b.Length, b.Width)-1e-6
		if short < min(item.Width, item.Length)-1e-6 || long < max(item.Width, item.Length)-1e-6 && !inside {
			t.Fatalf("%s takes %v by %v", item.ID, long, short)
		}
	}
}

// drawRequest draws a station and what came back to it. Some baskets are
// counted, some measured, some both.
func drawRequest(t *rapid.T, items []catalog.Item) load.Request {
	soil := rapid.SampledFrom([]load.Soil{load.Light, load.Normal, load.Heavy})
	flip := rapid.Bool()
	r := load.Request{
		Bath: load.Conditions{
			Bath: units.Fahrenheit(rapid.Float64Range(94, 126).Filter(func(f float64) bool { return f < 112 || f > 120 }).Draw(t, "bath, °F")),
			Set:  units.Fahrenheit(rapid.Float64Range(105, 125).Draw(t, "set, °F")),
		},
		Tank: load.Tank{
			Water:     units.Volume(rapid.Float64Range(40, 300).Draw(t, "water, L")),
			Freeboard: units.Volume(max(0, rapid.Float64Range(-10, 60).Draw(t, "freeboard, L"))),
			HalfSlots: rapid.IntRange(2, 6).Draw(t, "half slots"),
		},
		HeavyAlone: flip.Draw(t, "heavy alone"),
	}
	r.Tank.MaxBaskets = rapid.IntRange(0, 4).Draw(t, "baskets at once")
	for i := range rapid.IntRange(1, 3).Draw(t, "makes") {
		b := load.Basket{Name: fmt.Sprint(i), Kind: catalog.BasketShallow, Count: rapid.IntRange(1, 3).Draw(t, "count"), Holds: map[string]int{}}
		b.Height = units.Inches(6)
		if i == 0 || flip.Draw(t, "deep") {
			b.Kind, b.Height = catalog.BasketDeep, units.Inches(12)
		}
		if flip.Draw(t, "measured") {
			b.Length = units.Inches(rapid.Float64Range(16, 30).Draw(t, "length, in"))
			b.Width = units.Inches(rapid.Float64Range(12, 20).Draw(t, "width, in"))
		}
		if flip.Draw(t, "counted") {
			for _, item := range items {
				if n := rapid.IntRange(-2, 6).Draw(t, item.ID); n >= 0 {
					b.Holds[item.ID] = n
				}
			}
		}
		if flip.Draw(t, "limited") {
			b.MaxMass = units.Mass(rapid.Float64Range(5, 40).Draw(t, "most, kg"))
		}
		r.Baskets = append(r.Baskets, b)
	}
	for range rapid.IntRange(0, 8).Draw(t, "batches") {
		r.Batches = append(r.Batches, load.Batch{Item: rapid.SampledFrom(items).Draw(t, "item"), N: rapid.IntRange(0, 12).Draw(t, "n"), Soil: soil.Draw(t, "soil")})
	}
	return r
}

// Whatever came back and whatever the station has: nothing stays in beyond its
// longest minutes, and mass, displacement, lids and layouts hold.
func TestPlansAlwaysKeepTheRules(t *testing.T) {
	items := shipped(t).Items
	plans, shared := 0, 0
	check := func(t *rapid.T) {
		r := drawRequest(t, items)
		r.Stop = atMost(40)
		got, err := load.Plan(r)
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, r, got)
		plans++
		for _, w := range got.Washes {
			shared += min(1, len(batchesOf(w))/2)
		}
	}
	for plans < 500 {
		rapid.Check(t, check)
		if t.Failed() {
			return
		}
	}
	if shared < plans/5 {
		t.Errorf("only %d washes of %d plans hold more than one batch", shared, plans)
	}
}

// batchesOf are the batches that share a wash.
func batchesOf(w load.Wash) map[int]bool {
	all := map[int]bool{}
	for _, b := range w.Baskets {
		for _, line := range b.Lines {
			all[line.Batch] = true
		}
	}
	return all
}
