package guide_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/guide"
)

// Source: 29 CFR 1910.134 App. B-2 (110 F, 2 min, 50 ppm) and common practice,
// no source (3 to 5 min), as the catalog has them.
func TestCardOfAMask(t *testing.T) {
	got := guide.CardOf(itemCalled(t, "mask"))
	want := guide.Card{
		ID: "mask", Name: "Mask",
		Basket:  "shallow or deep basket, lid or none; one layer, hollow ends angled, nothing on the floor of the tank",
		Minutes: "3 light, 4 normal, 5 heavy soil; at most 5 min",
		Source:  "common practice, no source: 3 to 5 min",
		Limit:   "bath at 110 F, unless a maker's paper on file says otherwise (29 CFR 1910.134 App. B-2)",
	}
	if len(got.Before) != 3 || got.Before[0].Say != "regulator off the mask" {
		t.Errorf("before: got %v, want the regulator first of three", got.Before)
	}
	if len(got.After) != 7 || got.After[1] != "disinfect: 2 min at least in 50 ppm chlorine or iodine, or as the maker approves" {
		t.Errorf("after: got %q", got.After)
	}
	got.Before, got.After = nil, nil
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What floats lies under a lid (common practice, no source).
func TestCardSaysWhichLid(t *testing.T) {
	for item, want := range map[string]string{
		"helmet": "deep basket, lid clipped over it: it floats; one layer, hollow ends angled, nothing on the floor of the tank",
		"axe":    "shallow or deep basket, no lid: it sinks; one layer, hollow ends angled, nothing on the floor of the tank",
	} {
		if got := guide.CardOf(itemCalled(t, item)).Basket; got != want {
			t.Errorf("%s: got %q, want %q", item, got, want)
		}
	}
}

func itemCalled(t *testing.T, name string) catalog.Item {
	t.Helper()
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	item, err := cat.Item(name)
	if err != nil {
		t.Fatal(err)
	}
	return item
}
