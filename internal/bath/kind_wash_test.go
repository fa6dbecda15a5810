package bath_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// masks is a wash that nothing speaks against. 110 F is the limit of 29 CFR
// 1910.134 App. B-2 for the water that masks are washed in.
func masks(change func(*bath.Wash)) *bath.Wash {
	w := &bath.Wash{
		Items: []bath.Load{{Item: "mask", Name: "Mask", Count: 4, Longest: units.Minutes(5), LimitC: p(units.Fahrenheit(110)), Limit: "110 F"}},
		Soil:  "normal", Time: units.Minutes(4), BathC: units.Fahrenheit(108), Result: bath.ResultClean,
	}
	change(w)
	return w
}

func TestWashRefused(t *testing.T) {
	of := func(loads ...bath.Load) *bath.Wash { return masks(func(w *bath.Wash) { w.Items = loads }) }
	checkRefusals(t, []refusal{
		{name: "nothing in it", by: keyHolder, body: of(), id: "missing", say: "what was washed? Give it like mask=4"},
		{name: "twice", by: keyHolder, body: of(bath.Load{Item: "mask", Count: 1}, bath.Load{Item: "mask", Count: 1}), id: "twice", say: "mask is in the list twice"},
		{name: "none of it", by: keyHolder, body: of(bath.Load{Item: "mask"}), id: "input", say: "0 of mask is not a count: 1 to 200 are allowed"},
		{name: "less than none", by: keyHolder, body: of(bath.Load{Item: "mask", Count: -4}), id: "input", say: "-4 of mask is not a count"},
		{name: "no name", by: keyHolder, body: of(bath.Load{Count: 1}), id: "input", say: "has no name that can be shown"},
		{name: "no time", by: keyHolder, body: masks(func(w *bath.Wash) { w.Time = 0 }), id: "missing", say: "how long was the wash? Give it like 15min"},
		{name: "hours for minutes", by: keyHolder, body: masks(func(w *bath.Wash) { w.Time = units.Hours(4) }), id: "input", say: "a wash of 4 h is not believable: at most 2 h"},
		{name: "steam", by: keyHolder, body: masks(func(w *bath.Wash) { w.BathC = 100 }), id: "not-liquid", say: "a bath of 212 °F"},
		{name: "no such result", by: keyHolder, body: masks(func(w *bath.Wash) { w.Result = "fine" }), id: "input", say: `result: "fine" is not one of clean, again, damaged`},
	})
}

func TestWashIsKeptAndMarked(t *testing.T) {
	at := func(f float64) *bath.Wash { return masks(func(w *bath.Wash) { w.BathC = units.Fahrenheit(f) }) }
	asIs := masks(func(*bath.Wash) {})
	tests := []struct {
		name string
		on   func(testing.TB) *book
		by   string
		body *bath.Wash
		want []string
	}{
		{"lawful", begun, keyHolder, asIs, nil},
		{"by the gear officer", begun, officer, asIs, nil},
		{"by crew", begun, crew, asIs, []string{"Lee Holm is crew: starting ultrasound is for a key holder or a gear officer"}},
		{"no fill", newBook, keyHolder, asIs, []string{"no fill was open"}},
		{"straight after the fill", justFilled, keyHolder, asIs, []string{"the bath was not run empty to clear bubbles since it was filled", "no soap is logged in this fill"}},
		{"while tagged", contaminated, keyHolder, asIs, []string{"the bath was red-tagged by Lee Holm: a pack with asbestos dust"}},
		{"at the limit", begun, keyHolder, at(110), nil},
		{"just too hot", begun, keyHolder, at(110.4), []string{"Mask: the bath was at 110.4 °F, the limit is 110 F"}},
		{"too hot", begun, keyHolder, at(122), []string{"Mask: the bath was at 122 °F, the limit is 110 F"}},
		{"far too hot", begun, keyHolder, at(140), []string{"the bath was at 140 °F, above the hottest allowed here, 130 °F", "the limit is 110 F"}},
		{"too long", begun, keyHolder, masks(func(w *bath.Wash) { w.Time = units.Minutes(6) }), []string{"Mask: 6 min is longer than its longest, 5 min"}},
		{"as long as it may", begun, keyHolder, masks(func(w *bath.Wash) { w.Time = units.Minutes(5) }), nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			body := *tt.body
			tt.on(t).log(tt.by, &body)
			checkOutside(t, body.Outside, tt.want...)
		})
	}
}

func justFilled(t testing.TB) *book {
	b := newBook(t)
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	return b
}

// A wash that is logged late is judged by the fill it was in, as that stood.
func TestALateWashIsJudgedByWhenItWas(t *testing.T) {
	b := begun(t)
	inService := b.now
	b.wait(time.Hour)
	b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	b.wait(time.Hour)
	first := masks(func(*bath.Wash) {})
	b.late(keyHolder, inService.Add(time.Minute), first)
	checkOutside(t, first.Outside)
	early := masks(func(*bath.Wash) {})
	b.late(keyHolder, inService.Add(-150*time.Second), early) // between the fill and the soap
	checkOutside(t, early.Outside, "bubbles", "soap")
	empty := masks(func(*bath.Wash) {})
	b.late(keyHolder, b.now.Add(-time.Minute), empty)
	checkOutside(t, empty.Outside, "no fill was open")
	if washes, items := b.bath().Lives()[0].Washes(); washes != 2 || items != 8 {
		t.Errorf("got %d washes of %d items in the fill, want 2 of 8", washes, items)
	}
}

func TestItemsAreReadAsPeopleWriteThem(t *testing.T) {
	tests := []struct {
		text string
		want []bath.Load
		say  string // of a refusal
	}{
		{"mask=4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask = 4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask 4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask x 4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask x4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask×4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"Mask × 4", []bath.Load{{Item: "Mask", Count: 4}}, ""},
		{"mask", []bath.Load{{Item: "mask", Count: 1}}, ""},
		{"box 4", []bath.Load{{Item: "box", Count: 4}}, ""},
		{"hand tool=3", []bath.Load{{Item: "hand tool", Count: 3}}, ""},
		{"hand tool 3", []bath.Load{{Item: "hand tool", Count: 3}}, ""},
		{"mask=4,helmet=2", []bath.Load{{Item: "mask", Count: 4}, {Item: "helmet", Count: 2}}, ""},
		{" mask 4 , hand tool x 2 ", []bath.Load{{Item: "mask", Count: 4}, {Item: "hand tool", Count: 2}}, ""},
		{"mask=200", []bath.Load{{Item: "mask", Count: 200}}, ""},
		{"ma\u200bsk\x07=4", []bath.Load{{Item: "mask", Count: 4}}, ""},
		{"mask=0", nil, `items: "0" is not a count: 1 to 200 are allowed, like mask=4`},
		{"mask=-1", nil, `"-1" is not a count`},
		{"mask=10000", nil, `"10000" is not a count`},
		{"mask=99999999999999999999", nil, `"99999999999999999999" is not a count`},
		{"mask=four", nil, `"four" is not a count`},
		{"mask=1.5", nil, `"1.5" is not a count`},
		{"mask=", nil, `"" is not a count`},
		{"=4", nil, `"=4" names no item`},
		{"mask=4,", nil, `"" names no item`},
		{"mask=4,helmet=0", nil, `"0" is not a count`},
	}
	spec, _ := bath.SpecOf("wash")
	field, _ := spec.Field("item")
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			w := new(bath.Wash)
			err := field.Set(w, units.Scan, tt.text)
			if tt.say != "" {
				checkRefusal(t, err, "input", tt.say)
			} else if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(tt.want, w.Items); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
}
