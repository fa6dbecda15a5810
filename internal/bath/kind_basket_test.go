package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
)

// holds are the counts of common practice, no source: 6 masks, or 2 helmets.
func holds() []bath.Load { return []bath.Load{{Item: "mask", Count: 6}, {Item: "helmet", Count: 2}} }

func TestBasketRefused(t *testing.T) {
	deep := func(change func(*bath.Basket)) *bath.Basket {
		b := &bath.Basket{Name: "deep", Make: bath.BasketDeep, Count: p(2), AtOnce: p(1), Holds: holds()}
		change(b)
		return b
	}
	checkRefusals(t, []refusal{
		{name: "of no name", by: officer, body: deep(func(b *bath.Basket) { b.Name = "" }), id: "missing", say: "which basket is it?"},
		{name: "by the crew", body: deep(func(*bath.Basket) {}), id: "role", say: "is for a gear officer"},
		{name: "of no kind", by: officer, body: deep(func(b *bath.Basket) { b.Make = "" }), id: "missing", say: `is basket "deep" shallow or deep?`},
		{name: "of another kind", by: officer, body: deep(func(b *bath.Basket) { b.Make = "either" }), id: "input", say: `kind: "either" is not one of shallow, deep`},
		{name: "none of it", by: officer, body: deep(func(b *bath.Basket) { b.Count = p(0) }), id: "input", say: "1 to 64 are allowed; one that is lost is --gone"},
		{name: "too many of it", by: officer, body: deep(func(b *bath.Basket) { b.Count = p(65) }), id: "input", say: "65 of basket"},
		{name: "more at once than there are", by: officer, body: deep(func(b *bath.Basket) { b.AtOnce = p(3) }), id: "input", say: `3 of basket "deep" at once is not possible`},
		{name: "holds nothing", by: officer, body: deep(func(b *bath.Basket) { b.Holds = nil }), id: "missing", say: `what does basket "deep" hold?`},
		{name: "holds masks twice", by: officer, body: deep(func(b *bath.Basket) { b.Holds = append(holds(), holds()...) }), id: "twice", say: "mask is in the list twice"},
		{name: "of two sizes", by: officer, body: deep(func(b *bath.Basket) { b.LengthM, b.WidthM = 0.4, 0.3 }), id: "missing", say: "all three of its inner sizes, or none"},
		{name: "a container", by: officer, body: deep(func(b *bath.Basket) { b.LengthM, b.WidthM, b.HeightM = 14, 11, 5 }), id: "input", say: "goes in no bath: check the unit"},
		{name: "lost before it came", by: officer, body: &bath.Basket{Name: "wire", Gone: true}, id: "input", say: `there is no basket "wire" at bath main: none is on file`},
		{name: "no bath", on: bathless, by: officer, body: deep(func(*bath.Basket) {}), id: "no-bath", say: "run bathside setup"},
	})
}

func TestABasketRecordedAgainChangesOnlyWhatItCarries(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Basket{Name: "deep", Make: bath.BasketDeep, Count: p(2), Holds: holds()})
	b.log(officer, &bath.Basket{Name: "tray", Make: bath.BasketShallow, LengthM: 0.4, WidthM: 0.3, HeightM: 0.1})
	before := b.state
	b.log(officer, &bath.Basket{Name: "DEEP", AtOnce: p(2)})
	want := []bath.Basket{
		{Name: "DEEP", Make: bath.BasketDeep, Count: p(2), AtOnce: p(2), Holds: holds()},
		{Name: "tray", Make: bath.BasketShallow, LengthM: 0.4, WidthM: 0.3, HeightM: 0.1},
	}
	if diff := cmp.Diff(want, b.bath().Baskets); diff != "" {
		t.Errorf("baskets (-want +got):\n%s", diff)
	}
	if got := before.Baths[0].Baskets[0].Name; got != "deep" {
		t.Errorf("the state before was changed: %s", got)
	}
	if got := want[1]; got.Has() != 1 || got.Together() != 1 {
		t.Errorf("uncounted: got %d of it, %d at once; want 1 and 1", got.Has(), got.Together())
	}
}

// Crossing a line out takes back what it changed, and a basket that is gone
// can come back, as a new one.
func TestABasketGoesAndComesBack(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Basket{Name: "deep", Make: bath.BasketDeep, Count: p(2), Holds: holds()})
	gone := b.log(officer, &bath.Basket{Name: "deep", Gone: true})
	if got := b.bath().Baskets; len(got) != 0 {
		t.Fatalf("got %v, want none", got)
	}
	b.log(officer, &bath.Strike{Target: gone.Seq, Why: "it was in the truck"})
	if got := b.bath().Baskets; len(got) != 1 || got[0].Has() != 2 {
		t.Errorf("got %v, want the two deep ones", got)
	}
}

func TestBasketSays(t *testing.T) {
	tests := map[string]*bath.Basket{
		"basket deep, deep, 2 of it, 1 in the bath at once: mask × 6 or helmet × 2": {Name: "deep", Make: bath.BasketDeep, Count: p(2), AtOnce: p(1), Holds: holds()},
		"basket tray, 14 in by 11 in by 5 in inside":                                {Name: "tray", LengthM: units.Inches(14), WidthM: units.Inches(11), HeightM: units.Inches(5)},
		"basket tray is gone": {Name: "tray", Gone: true},
	}
	for want, body := range tests {
		if got := (bath.Entry{Body: body}).Say(units.US); !strings.HasPrefix(got, want) {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
