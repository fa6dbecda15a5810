package advise_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/assets"
	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

func loading(t *testing.T, x *advise.Snapshot, counts map[string]int) advise.Loading {
	t.Helper()
	l, err := x.Loading(advise.LoadAsk{Batches: batches(t, counts), Checked: true, Lids: true})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func gateIDs(l advise.Loading) string {
	var ids []string
	for _, g := range l.Gates {
		ids = append(ids, g.ID)
	}
	return strings.Join(ids, " ")
}

// 6 kW warms 60 gal by 0.38 °C a minute, losses not counted (rulings of the
// trade).
func TestALoadSeesHowHotItsBathWillBe(t *testing.T) {
	b := bare().
		add("1 09:10", &bath.Tank{VolumeL: units.Gallons(60), HeaterW: 6000}).
		add("2 08:00", &bath.Fill{VolumeL: units.Gallons(60)}).
		add("2 10:00", &bath.Temp{BathC: 40})
	l := loading(t, b.look(t, "2 10:05"), map[string]int{"mask": 1})
	if l.Minutes != 5 { // a mask has 5 at the most, and 10 °C below the set point it would want more
		t.Fatalf("got %v min, want 5", l.Minutes)
	}
	if got, want := float64(l.Hottest), 40+5*0.38; math.Abs(got-want) > 0.05 {
		t.Errorf("got %v °C at the hottest, want %v", got, want)
	}
	if l := loading(t, b.look(t, "2 10:16"), map[string]int{"mask": 1}); l.Measured || l.Start.BathC != 0 {
		t.Error("a temperature of 16 min ago stands for a start")
	}
}

// Four masks of 1.5 lb and two shells of 2.5 lb (the catalog's own figures),
// against half of 70 gal of water at a kilogram a litre: 70 x 3.785411784 / 2.
func TestALoadIsWeighed(t *testing.T) {
	l := loading(t, inService().look(t, "2 12:05"), map[string]int{"mask": 4, "helmet": 2})
	if want := 11 * 0.45359237; math.Abs(float64(l.Mass)-want) > 1e-9 {
		t.Errorf("got %v kg, want %v", l.Mass, want)
	}
	if want := 70 * 3.785411784 / 2; math.Abs(float64(l.MostMass)-want) > 1e-9 {
		t.Errorf("got at most %v kg, want %v", l.MostMass, want)
	}
	if want := 4*0.7 + 2*2.5; math.Abs(float64(l.Up)-want) > 1e-9 {
		t.Errorf("got %v L pushed up, want %v", l.Up, want)
	}
}

// The maker's paper on file stands in the place of the cited rule, 110 F
// (29 CFR 1910.134 App. B-2).
func TestTheLowestLimitOfALoadRules(t *testing.T) {
	x := inService().look(t, "2 12:05")
	if l := loading(t, x, map[string]int{"mask": 1, "pack": 1, "helmet": 1}); l.Limit.Printed != "110 F" || l.LimitOf != "masks" {
		t.Errorf("got %s for %s", l.Limit.Printed, l.LimitOf)
	}
	b := inService().add("2 12:01", &bath.Procedure{Item: "mask", State: bath.PaperOnFile, Title: "rev 7", MaxC: new(units.Temperature(53))})
	if l := loading(t, b.look(t, "2 12:05"), map[string]int{"mask": 1}); l.Limit.At != 53 || !strings.Contains(l.Limit.Source, "rev 7") {
		t.Errorf("got %v by %s", l.Limit.At, l.Limit.Source)
	}
}

func TestAnEmptyBathTakesNoLoad(t *testing.T) {
	l, err := setUp().look(t, "2 12:05").Loading(advise.LoadAsk{Batches: batches(t, map[string]int{"tool": 3})})
	if err == nil || !strings.Contains(err.Error(), "fill it") || l.Mass == 0 {
		t.Errorf("got %v, %v", l.Mass, err)
	}
}

func TestALoadIsStowedByTheBasketsOnFile(t *testing.T) {
	x := basketed().look(t, "9 07:05") // trays for 5 masks, two at once
	for masks, want := range map[int]int{10: 1, 11: 2} {
		w, err := x.Stow(batches(t, map[string]int{"mask": masks}))
		if err != nil || len(w.WashPlan.Washes) != want {
			t.Errorf("%d masks: got %d washes, %v; want %d", masks, len(w.WashPlan.Washes), err, want)
		}
	}
	if _, err := x.Stow(batches(t, map[string]int{"mask": advise.MostAtOnce + 1})); err == nil {
		t.Error("more than a screen waits for is laid out")
	}
	if _, err := inService().look(t, "9 07:05").Stow(nil); err == nil || !strings.Contains(err.Error(), "no basket is on file") {
		t.Errorf("without baskets: got %v", err)
	}
}

// Whatever is put together, the minutes that come of it are too long for
// nothing in it, and what was ticked asks no more.
func TestMinutesOfALoadAreNeverTooLong(t *testing.T) {
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	b := inService().add("9 07:00", &bath.Temp{BathC: 44}).add("9 07:00", &bath.Procedure{
		Item: "pack", State: bath.PaperOnFile, Title: "rev 2", MaxC: new(units.Temperature(50)), Longest: units.Minutes(7),
	})
	x := b.look(t, "9 07:01")
	rapid.Check(t, func(t *rapid.T) {
		soil := rapid.SampledFrom([]load.Soil{load.Light, load.Normal, load.Heavy}).Draw(t, "soil")
		ask := advise.LoadAsk{Checked: true, Lids: true}
		for _, item := range cat.Items {
			ask.Batches = append(ask.Batches, load.Batch{Item: item, N: rapid.IntRange(0, 3).Draw(t, item.ID), Soil: soil})
		}
		l, err := x.Loading(ask)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range l.Gates {
			if g.ID == "too-long" || g.ID == "checks" || g.ID == "lid" || g.ID == "paper" && strings.Contains(g.Wrong, "longer than") {
				t.Fatalf("%g min: %s", l.Minutes, g.Say())
			}
		}
		if l.Wanted > l.Longest != (l.Apart != "") {
			t.Fatalf("wants %g of %g min: %q", l.Wanted, l.Longest, l.Apart)
		}
	})
}

// What the form of the start is filled in with is what its own fields read.
func TestTheFormOfAStartTakesItsPreset(t *testing.T) {
	b := inService().add("9 07:00", &bath.Temp{BathC: 43, Heat: new(false)})
	l := loading(t, b.look(t, "9 07:01"), map[string]int{"mask": 2, "helmet": 1})
	for _, sys := range []units.System{units.US, units.SI} {
		if err := bath.Typed("start", l.Preset(sys), sys.Scan); err != nil {
			t.Errorf("%v: %v", sys, err)
		}
	}
	if got := gateIDs(l); got != "intake paper" {
		t.Errorf("got in the way: %s", got)
	}
}
