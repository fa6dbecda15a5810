package load_test

import (
	"strings"
	"testing"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// batch is so many of a shipped item.
func batch(t testing.TB, n int, name string, soil load.Soil) load.Batch {
	t.Helper()
	item, err := shipped(t).Item(name)
	if err != nil {
		t.Fatal(err)
	}
	return load.Batch{Item: item, N: n, Soil: soil}
}

// station has one deep and two shallow baskets for a bath that takes either,
// with its own counts, and no limits but those.
func station() load.Request {
	return load.Request{
		Bath: load.Conditions{Bath: units.Fahrenheit(108), Set: units.Fahrenheit(108)},
		Tank: load.Tank{Water: units.Gallons(60), Freeboard: 30, HalfSlots: 2},
		Baskets: []load.Basket{
			{Name: "shallow", Kind: catalog.BasketShallow, Count: 2, Holds: map[string]int{"mask": 6, "tool": 3}},
			{Name: "deep", Kind: catalog.BasketDeep, Count: 1, Holds: map[string]int{"mask": 6, "helmet": 2, "cylinder": 2, "pack": 2, "tool": 4}},
		},
		Care: load.Care{Changeover: units.Minutes(5)},
	}
}

func plan(t testing.TB, r load.Request) load.WashPlan {
	t.Helper()
	got, err := load.Plan(r)
	if err != nil {
		t.Fatal(err)
	}
	checkPlan(t, r, got)
	return got
}

// The counts of the case are the trade's: 6 masks, or 2 helmets, or 2
// cylinders in a basket (common practice, no source), the rest our own. By
// hand: masks, which may have 5 min, share with nothing that wants more than
// 5, and 12 of them go at once, so 2 washes of 4 min. Helmets want 5 and may
// have 8: they share with masks by the minutes, but need the deep basket, of
// which there is one: 5 washes of 5 min. Cylinders and packs need it too: 3
// and 4 washes, of 10 and 12 min. Of 9 tools 6 go in two shallow baskets or
// 4 in the deep one, which the others fill: 2 washes of 10 min. In all 16.
func TestPlanOfAnIncident(t *testing.T) {
	r := station()
	r.Batches = []load.Batch{
		batch(t, 14, "mask", load.Normal), batch(t, 10, "helmet", load.Normal), batch(t, 6, "cylinder", load.Normal),
		batch(t, 8, "pack", load.Normal), batch(t, 9, "tool", load.Normal),
	}
	got := plan(t, r)
	const minutes = 2*4 + 5*5 + 3*10 + 4*12 + 2*10
	if len(got.Washes) != 16 || got.TotalMinutes != minutes || !got.Proved || len(got.KeptOut) > 0 {
		t.Errorf("got %d washes, %v min, proved %v, kept out %v; want 16, %v, proved, nothing",
			len(got.Washes), got.TotalMinutes, got.Proved, got.KeptOut, minutes)
	}
	if want := units.Minutes(minutes + 15*5); !cmp.Equal(got.BathDone, want, cmpopts.EquateApprox(0, 1e-6)) {
		t.Errorf("bath done after %v, want %v", got.BathDone, want)
	}
	// A mask wash and a pack wash, with a changeover between them.
	if want := units.Minutes(4 + 5 + 12); len(got.Sets) != 8 || !cmp.Equal(got.Sets[0], want, cmpopts.EquateApprox(0, 1e-6)) {
		t.Errorf("sets %v, want 8, the first after %v", got.Sets, want)
	}
}

// By size, four masks of 9 by 7 in lie on a floor of 20 by 16 (TestPlace), so
// nine fill three shallow baskets, and two go in at once. By area alone nine
// go into two: the plan does not claim that it is the best.
func TestPlanBySize(t *testing.T) {
	r := station()
	r.Baskets = []load.Basket{{Name: "shallow", Kind: catalog.BasketShallow, Count: 2,
		Length: units.Inches(20), Width: units.Inches(16), Height: units.Inches(6)}}
	r.Batches = []load.Batch{batch(t, 9, "mask", load.Normal)}
	got := plan(t, r)
	if len(got.Washes) != 2 || got.Proved || got.LowerBound != 1 {
		t.Errorf("got %d washes, proved %v, bound %d; want 2, false, 1", len(got.Washes), got.Proved, got.LowerBound)
	}
	if diff := cmp.Diff([]string{"At most one wash from the best possible."}, got.Notes); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	for _, w := range got.Washes {
		for _, b := range w.Baskets {
			if len(b.Layers) != 1 {
				t.Errorf("%d layers drawn, want 1", len(b.Layers))
			}
		}
	}
}

func TestPlanKeepsOut(t *testing.T) {
	tests := []struct {
		name   string
		item   string
		change func(*load.Request)
		want   string
	}{
		{"bath too hot for masks", "mask", func(r *load.Request) { r.Bath.Bath, r.Bath.Set = 50, 50 },
			"Not in the bath: the bath is at 122 °F, the limit for masks is 110 F"},
		{"no basket", "nozzle", func(*load.Request) {},
			"Not in the plan: no basket that goes in the bath is known to hold nozzles. Do this: write how many of them a basket holds."},
		{"deep basket does not go in", "helmet", func(r *load.Request) { r.Tank.HalfSlots = 1 },
			"Not in the plan: no basket that goes in the bath is known to hold helmet"},
		{"one overflows", "cylinder", func(r *load.Request) { r.Tank.Freeboard = 10 },
			"Not in the plan: one of the cylinders pushes up 2.8 gal, the tank has 2.6 gal to its rim. Do this: wash it by hand."},
		{"too heavy for the water", "tool", func(r *load.Request) { r.Tank.Water = 5 },
			"Not in the plan: one of the hand tools has 7.0 lb, more than half the water's 5.4 lb. Do this: wash it by hand."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := station()
			tt.change(&r)
			r.Batches = []load.Batch{batch(t, 1, tt.item, load.Normal)}
			got := plan(t, r)
			if len(got.KeptOut) != 1 || !strings.HasPrefix(got.KeptOut[0].Why, tt.want) {
				t.Errorf("got %v, want %s", got.KeptOut, tt.want)
			}
		})
	}
}

// Four cylinders displace 43 L (trade): where the tank has 42 they do not go
// together, though there are baskets.
func TestPlanDoesNotOverflow(t *testing.T) {
	for freeboard, want := range map[units.Volume]int{43: 1, 42: 2, 21.5: 2, 21: 4, 0: 1} {
		r := station()
		r.Tank.HalfSlots, r.Tank.Freeboard, r.Baskets[1].Count = 4, freeboard, 2
		r.Batches = []load.Batch{batch(t, 4, "cylinder", load.Normal)}
		got := plan(t, r)
		if len(got.Washes) != want || !got.Proved {
			t.Errorf("freeboard %v L: got %d washes, want %d", freeboard, len(got.Washes), want)
		}
		if unknown := freeboard == 0; unknown != (len(got.Notes) == 1 && strings.HasPrefix(got.Notes[0], "The tank may overflow")) {
			t.Errorf("freeboard %v L: notes %q", freeboard, got.Notes)
		}
	}
}

func TestPlanSoil(t *testing.T) {
	r := station()
	r.Batches = []load.Batch{batch(t, 6, "mask", load.Heavy), batch(t, 6, "mask", load.Light), batch(t, 2, "pack", load.Normal), batch(t, 2, "pack", load.Light)}
	soils := func() (got []load.Soil) {
		for _, w := range plan(t, r).Washes {
			got = append(got, w.Dirtiest)
		}
		return got
	}
	if diff := cmp.Diff([]load.Soil{load.Light, load.Normal, load.Heavy}, soils()); diff != "" {
		t.Errorf("together (-want +got):\n%s", diff)
	}
	r.HeavyAlone = true
	if diff := cmp.Diff([]load.Soil{load.Light, load.Light, load.Normal, load.Heavy}, soils()); diff != "" {
		t.Errorf("heavy alone (-want +got):\n%s", diff)
	}
}

// What is needed goes before cleaner gear only where it would be late.
func TestPlanNeeds(t *testing.T) {
	late := "Dirtier gear goes before cleaner so that what is needed is back first."
	tests := []struct {
		name string
		by   units.Span
		at   float64 // minutes
		met  bool
		note string
	}{
		// Cylinders first, 8 min of light soil, then packs, 15 min of heavy.
		{"time enough", units.Minutes(60), 8 + 5 + 15, true, ""},
		{"just in time", units.Minutes(28), 8 + 5 + 15, true, ""},
		{"sooner", units.Minutes(20), 15, true, late},
		{"as soon as can be", 0, 15, true, late},
		{"too soon", units.Minutes(10), 15, false, late},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := station()
			r.Batches = []load.Batch{batch(t, 2, "pack", load.Heavy), batch(t, 2, "cylinder", load.Light)}
			r.Needs = []load.Need{{Item: "pack", N: 2, By: tt.by}}
			got := plan(t, r)
			want := []load.NeedMet{{Need: r.Needs[0], In: true, At: units.Minutes(tt.at), Met: tt.met}}
			if diff := cmp.Diff(want, got.Needs, cmpopts.EquateApprox(0, 1e-6)); diff != "" {
				t.Errorf("needs (-want +got):\n%s", diff)
			}
			if notes := strings.Join(got.Notes, " "); strings.Contains(notes, late) != (tt.note != "") {
				t.Errorf("notes %q, want %q", notes, tt.note)
			}
		})
	}
	r := station()
	r.Needs = []load.Need{{Item: "mask", N: 4}}
	r.Batches = []load.Batch{batch(t, 2, "mask", load.Normal)}
	if got := plan(t, r); got.Needs[0].In || got.Needs[0].Met {
		t.Errorf("got %v; want not in the plan", got.Needs)
	}
}

// Six masks in one wash of 4 min, one place to rinse for 2 min each, two to
// dry for 30: by hand they are back after 36, 38, 66, 68, 96 and 98 min.
func TestPlanRinseAndDry(t *testing.T) {
	r := station()
	r.Care = load.Care{Rinse: units.Minutes(2), RinsePlaces: 1, Dry: map[string]units.Span{"mask": units.Minutes(30)}, DryPlaces: 2}
	r.Set = []load.Part{{Item: "mask", N: 1}}
	r.Batches = []load.Batch{batch(t, 6, "mask", load.Normal)}
	var got []float64
	for _, at := range plan(t, r).Sets {
		got = append(got, at.Min())
	}
	if diff := cmp.Diff([]float64{36, 38, 66, 68, 96, 98}, got, cmpopts.EquateApprox(0, 1e-6)); diff != "" {
		t.Errorf("masks back, min (-want +got):\n%s", diff)
	}
}

func TestPlanErrors(t *testing.T) {
	tests := []struct {
		name   string
		change func(*load.Request)
		want   string
	}{
		{"no baskets", func(r *load.Request) { r.Baskets = nil }, "no baskets; add the station's own"},
		{"no room", func(r *load.Request) { r.Tank.HalfSlots = 0 }, "the bath takes 0 half baskets; write 1 to 64"},
		{"no water", func(r *load.Request) { r.Tank.Water = 0 }, "the bath's volume is 0.0 L; write it"},
		{"either", func(r *load.Request) { r.Baskets[0].Kind = catalog.BasketEither }, `basket "shallow" is "either"; write shallow or deep`},
		{"negative count", func(r *load.Request) { r.Baskets[0].Holds["mask"] = -1 }, `basket "shallow" holds -1 of mask`},
		{"too many", func(r *load.Request) { r.Batches[0].N = 201 }, "201 masks; plan 0 to 200"},
		{"too many in all", func(r *load.Request) {
			r.Batches = append(r.Batches, r.Batches[0])
			r.Batches[0].N, r.Batches[1].N = 200, 1
		}, "201 pieces; plan 200 at most"},
		{"no set point", func(r *load.Request) { r.Bath.Set = 0 }, "set point is 32 °F"},
		{"no soil", func(r *load.Request) { r.Batches[0].Soil = "" }, `soil "" is not known`},
		{"drying backwards", func(r *load.Request) { r.Care.Dry = map[string]units.Span{"mask": -60} }, "mask takes -1 min to dry"},
		{"changeover backwards", func(r *load.Request) { r.Care.Changeover = -60 }, "changeover -1 min"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := station()
			r.Batches = []load.Batch{batch(t, 1, "mask", load.Normal)}
			tt.change(&r)
			if _, err := load.Plan(r); err == nil || !strings.HasPrefix(err.Error(), tt.want) {
				t.Errorf("got %v, want %s", err, tt.want)
			}
		})
	}
}
