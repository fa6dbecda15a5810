package advise_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/assets"
	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

var unmeasured = units.Temperature(math.NaN())

// batches are so many of shipped items, of normal soil.
func batches(t *testing.T, counts map[string]int) []load.Batch {
	t.Helper()
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	var all []load.Batch
	for _, item := range cat.Items {
		if n := counts[item.ID]; n > 0 {
			all = append(all, load.Batch{Item: item, N: n, Soil: load.Normal})
		}
	}
	return all
}

func washes(t *testing.T, x *advise.Snapshot, ask advise.WashesAsk) advise.Washes {
	t.Helper()
	w, err := x.PlanWashes(ask)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// basketed is a station in service with a make of each kind; the counts are
// invented.
func basketed() book {
	return inService().
		add("9 07:00", &bath.Basket{Name: "tray", Make: bath.BasketShallow, Count: new(3), AtOnce: new(2), Holds: []bath.Load{{Item: "mask", Count: 5}, {Item: "tool", Count: 4}}}).
		add("9 07:00", &bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "pack", Count: 2}}})
}

// Of three trays two go in at once, with no deep basket: 10 masks a wash.
func TestPlanGoesByTheBasketsOnFile(t *testing.T) {
	for masks, want := range map[int]int{5: 1, 10: 1, 11: 2, 20: 2, 21: 3} {
		w := washes(t, basketed().look(t, "9 07:01"), advise.WashesAsk{Batches: batches(t, map[string]int{"mask": masks}), Bath: 40, Set: 40})
		if len(w.WashPlan.Washes) != want || !w.Proved {
			t.Errorf("%d masks: got %d washes, proved %v; want %d", masks, len(w.WashPlan.Washes), w.Proved, want)
		}
	}
	b := basketed().add("9 07:00", &bath.Basket{Name: "net", Make: bath.BasketShallow, Count: new(2), Holds: []bath.Load{{Item: "nozzle", Count: 1}}})
	w := washes(t, b.look(t, "9 07:01"), advise.WashesAsk{Batches: batches(t, map[string]int{"nozzle": 2}), Bath: 40, Set: 40})
	if len(w.WashPlan.Washes) != 2 || !strings.Contains(strings.Join(w.First, " "), "How many of basket net go in the bath at once is not on file: planned with one.") {
		t.Errorf("got %d washes, %q; want 2, and a word that one net goes in", len(w.WashPlan.Washes), w.First)
	}
}

func TestPlanGoesByTheBathAsItWillBe(t *testing.T) {
	on, off := true, false
	warm := func(heat *bool) book { return basketed().add("9 07:01", &bath.Temp{BathC: 40, Heat: heat}) }
	tests := []struct {
		name  string
		book  book
		now   string
		bath  units.Temperature
		masks int // how many go in
		first string
	}{
		{"given", basketed(), "9 07:02", 40, 4, "Planned as at 104 °F to the end"},
		{"not measured: as at the set point", basketed(), "9 07:30", unmeasured, 0, "The bath was not measured in the last 15 min"},
		{"measured, heater off", warm(&off), "9 07:02", unmeasured, 4, ""},
		{"measured, heater on: it gets to the set point", warm(&on), "9 07:02", unmeasured, 0, ""},
		{"measured, heater not known", warm(nil), "9 07:02", unmeasured, 0, ""},
		{"measured too long ago", warm(&off), "9 07:17", unmeasured, 0, "The bath was not measured in the last 15 min"},
		{"red tag", warm(&off).add("9 07:02", &bath.Hold{Cause: bath.HoldHeater, Why: "trips"}), "9 07:03", unmeasured, 4, "DO NOT USE"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := washes(t, tt.book.look(t, tt.now), advise.WashesAsk{Batches: batches(t, map[string]int{"mask": 4}), Bath: tt.bath})
			if in := 4 * len(w.WashPlan.Washes); in != tt.masks || in+4*len(w.KeptOut) != 4 {
				t.Errorf("got %d masks in, %v; want %d", in, w.KeptOut, tt.masks)
			}
			if got := strings.Join(w.First, " "); tt.first == "" && got != "" || !strings.HasPrefix(got, tt.first) {
				t.Errorf("got %q, want %q", got, tt.first)
			}
		})
	}
}

// The catalog keeps masks at 110 °F (29 CFR 1910.134 App. B-2) and gives them 4
// min; a maker's paper stands instead.
func TestPlanGoesByTheMakersPaper(t *testing.T) {
	paper := func(p bath.Procedure) *bath.Procedure {
		p.Item, p.Title = "mask", "rev C"
		return &p
	}
	hot, cool := units.Temperature(50), units.Temperature(39)
	tests := []struct {
		name string
		body *bath.Procedure
		bath units.Temperature
		why  string // "" goes in
		min  float64
	}{
		{"hotter", paper(bath.Procedure{State: bath.PaperOnFile, MaxC: &hot}), 50, "", 4},
		{"cooler", paper(bath.Procedure{State: bath.PaperOnFile, MaxC: &cool}), 41, "the maker's paper: rev C", 0},
		{"shorter", paper(bath.Procedure{State: bath.PaperOnFile, MaxC: &hot, Longest: units.Minutes(3)}), 50, "", 3},
		{"not here yet", paper(bath.Procedure{State: bath.PaperPending}), 50, "29 CFR 1910.134 App. B-2", 0},
		{"outside", paper(bath.Procedure{State: bath.PaperOutside}), 41, "this station washes masks outside the bath", 0},
		{"lapsed", paper(bath.Procedure{State: bath.PaperOnFile, MaxC: &hot, Lapses: "2026-03-08"}), 50, "29 CFR 1910.134 App. B-2", 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := basketed().add("9 07:01", tt.body).look(t, "9 07:02")
			w := washes(t, x, advise.WashesAsk{Batches: batches(t, map[string]int{"mask": 4, "tool": 1}), Bath: tt.bath, Set: tt.bath})
			switch {
			case tt.why != "":
				if len(w.KeptOut) != 1 || !strings.Contains(w.KeptOut[0].Why, tt.why) || w.Request.Batches[w.KeptOut[0].Batch].N != 4 {
					t.Errorf("got %v, want 4 masks out: %s", w.KeptOut, tt.why)
				}
			case len(w.KeptOut) > 0 || w.WashPlan.Washes[0].Minutes != tt.min:
				t.Errorf("got %v, %v; want masks for %v min", w.KeptOut, w.WashPlan.Washes[0].Minutes, tt.min)
			}
		})
	}
}

// The drop is that of one wash by the trend, times the washes.
func TestPlanSaysWhatItCostsTheBath(t *testing.T) {
	ask := advise.WashesAsk{Batches: batches(t, map[string]int{"pack": 6}), Bath: 50}
	x := basketed().look(t, "9 07:02")
	if x.Trend == nil {
		t.Fatal("a bath with a first reading has no trend")
	}
	w := washes(t, x, ask)
	if want := -3 * x.Trend.Fit.Mean()[2]; w.Drop == nil || math.Abs(*w.Drop-want) > 1e-12 || want <= 0 {
		t.Errorf("got %v, want %v for 3 washes", w.Drop, want)
	}
	empty := bare().add("9 07:00", &bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "pack", Count: 2}}})
	w = washes(t, empty.look(t, "9 07:02"), ask)
	if w.Drop != nil || !strings.HasPrefix(w.First[0], "The bath is empty") {
		t.Errorf("an empty bath: got %v, %q; want no drop, and a word that it is empty", w.Drop, w.First)
	}
}

// The wash after which the limit is to be expected is the first that takes the
// drop there; and a day of washes has its filter run (common practice, no
// source).
func TestPlanAsksForAReadingWhereTheLimitIsExpected(t *testing.T) {
	const filter = "Run the filter for about 30 min after the last wash, ultrasound off (common practice, no source)."
	ask := advise.WashesAsk{Batches: batches(t, map[string]int{"pack": 6}), Bath: 50}
	x := basketed().add("9 07:00", &bath.Reading{PH: 9.95, SampleC: 50, Meter: "M1"}).look(t, "9 07:02")
	if x.PH.Drop == nil {
		t.Fatal("no drop")
	}
	each := *washes(t, x, ask).Drop / 3
	for _, tt := range []struct {
		washes float64 // to the limit
		want   []string
	}{
		{-1, []string{filter}}, {0.5, []string{"Read the pH after wash 1: it is likely down by 0.00 there.", filter}},
		{1.5, []string{"Read the pH after wash 2: it is likely down by 0.00 there.", filter}},
		{2.9, []string{"Read the pH after wash 3: it is likely down by 0.00 there.", filter}}, {3.1, []string{filter}},
	} {
		x.PH.Limit = *x.PH.Drop + tt.washes*each
		got := washes(t, x, ask).After
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], fmt.Sprintf("%.2f", x.PH.Limit), "0.00")
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%g washes to the limit (-want +got)\n%s", tt.washes, diff)
		}
	}
}
