package station_test

import (
	"errors"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// A wash keeps the steps of care that the catalog has on its day: for a mask
// 2 min in 50 ppm at least (29 CFR 1910.134 App. B-2). A step goes to the
// oldest wash that waits for it, unless another is named.
func TestCareIsFilledInFromTheCatalog(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	write(t, s, service()...)
	masks := func() station.Draft {
		return station.Draft{By: keyHolder, Body: &bath.Wash{Items: []bath.Load{{Item: "Mask", Count: 2}}, Soil: "light", Time: units.Minutes(4), BathC: units.Fahrenheit(104), Result: bath.ResultClean}}
	}
	write(t, s, masks(), masks())
	batches := stateOf(t, s).Baths[0].Batches
	if len(batches) != 2 {
		t.Fatalf("got %d batches, want 2", len(batches))
	}
	disinfect := bath.CareStep{ID: "disinfect", Least: units.Minutes(2), PPM: 50, Source: "29 CFR 1910.134 App. B-2"}
	if got := batches[0].Steps[1]; got != disinfect {
		t.Errorf("got %+v, want %+v", got, disinfect)
	}
	rinse := func(wash uint64) uint64 {
		t.Helper()
		out, err := s.Record(station.Draft{By: crew, Body: &bath.Care{Item: "Masks", Step: "rinse", Wash: wash}})
		if err != nil {
			t.Fatal(err)
		}
		return out[0].Body.(*bath.Care).Wash
	}
	for _, want := range []uint64{batches[0].Wash, batches[1].Wash} {
		if got := rinse(0); got != want {
			t.Errorf("line %d was rinsed, want %d", got, want)
		}
	}
	write(t, s, masks())
	last := stateOf(t, s).Baths[0].Batches[2].Wash
	if got := rinse(last); got != last {
		t.Errorf("line %d was rinsed, want %d, which was named", got, last)
	}
}

// A piece of gear is kept under the id of its item type, and what never goes
// into a bath is no gear of it.
func TestGearIsNamedAsTheCatalogDoes(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	write(t, s, station.Draft{By: officer, Body: &bath.Gear{Tag: "M-1", Item: "Masks"}})
	if p, ok := stateOf(t, s).Piece("m-1"); !ok || p.Item != "mask" {
		t.Errorf("got %+v", p)
	}
	_, err := s.Record(station.Draft{By: officer, Body: &bath.Gear{Tag: "R-1", Item: "radio"}})
	if refusal := new(bath.Refusal); !errors.As(err, &refusal) || refusal.ID != "item" {
		t.Errorf("got %v, want it refused", err)
	}
}

// The result of a started wash is of the pieces that went in.
func TestAResultTakesTheTagsOfItsStart(t *testing.T) {
	path, clock := newFile(t), &wall{now: noon}
	s := open(t, path, clock)
	write(t, s, service()...)
	items := func(n int) []bath.Load { return []bath.Load{{Item: "helmet", Count: n}} }
	write(t, s,
		station.Draft{By: officer, Body: &bath.Gear{Tag: "H-1", Item: "helmet"}},
		station.Draft{By: crew, Body: &bath.Intake{Else: bath.ElseNone}},
		station.Draft{By: officer, Body: &bath.Procedure{Item: "helmet", State: bath.PaperOnFile, Title: "shell care, rev 2", MaxC: new(units.Fahrenheit(126))}},
	)
	for _, want := range []struct {
		count int
		tags  string
	}{{2, "H-1"}, {3, ""}} {
		clock.wait(time.Hour)
		write(t, s, station.Draft{By: keyHolder, Body: &bath.Start{Items: items(2), Tags: bath.Tags{"H-1"}, Soil: "normal", Time: units.Minutes(5), BathC: 49, Checked: true, Lids: true}})
		clock.wait(6 * time.Minute)
		out := write(t, s, station.Draft{By: keyHolder, Body: &bath.Wash{Items: items(want.count), Soil: "normal", Time: units.Minutes(5), BathC: 49, Result: bath.ResultClean}})
		if got := out[0].Body.(*bath.Wash).Tags.String(); got != want.tags {
			t.Errorf("%d helmets: got tags %q, want %q", want.count, got, want.tags)
		}
	}
}
