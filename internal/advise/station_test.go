package advise_test

import (
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// value is a value of the set-up by its part and label.
func value(t *testing.T, parts []advise.Part, part, label string) advise.Value {
	t.Helper()
	for _, p := range parts {
		for _, v := range p.Values {
			if p.ID == part && v.Label == label {
				return v
			}
		}
	}
	t.Fatalf("part %s has no %q", part, label)
	return advise.Value{}
}

// Every value says whose word it is: somebody's, the usual one, or nobody's.
func TestStationPartsSayWhoseWordAValueIs(t *testing.T) {
	b := setUp().
		add("2 07:00", &bath.Member{Name: "Lee Holm", Role: bath.KeyHolder, Platoon: "B"}).
		add("2 07:00", &bath.Member{Name: "Ivo Lund"}).
		add("2 07:00", &bath.Member{Name: "Ivo Lund", Left: true}).
		add("3 07:00", &bath.Setting{Limit: new(0.4)}).
		add("3 07:00", &bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "mask", Name: "Mask", Count: 6}}}).
		add("3 07:00", &bath.Procedure{Item: "mask", State: bath.PaperPending, Accepted: "Kim Vale"}).
		add("3 07:00", &bath.Procedure{Item: "pack", State: bath.PaperOnFile, Title: "pack guide, rev 2", MaxC: new(units.Fahrenheit(122)), Lapses: "2026-03-31"}).
		add("3 08:00", &bath.Stock{What: bath.StockBuffers, OnHand: new(3.0)}).
		add("3 08:00", &bath.Duty{What: bath.DutyEyewash}).
		add("3 09:00", twoBuffers())
	x := b.look(t, "9 09:00")
	parts := x.StationParts(map[string]bool{"Kim Vale": true})
	for _, c := range []struct{ part, label, is, from string }{
		{"tank", "the mark", "the upper rivet", "Kim Vale, 1 Mar"},
		{"tank", "set point", "122 °F", "usual value"},
		{"tank", "sewer permission", "", "nobody set it"},
		{"limits", "allowed drop", "0.4", "Kim Vale, 3 Mar"},
		{"limits", "filter run", "30 min", "usual value"},
		{"members", "Kim Vale", "gear officer, on every duty list", "Kim Vale, 1 Mar"},
		{"members", "Lee Holm", "key holder, platoon B", "Kim Vale, 2 Mar"},
		{"pins", "Kim Vale", "has one", "asked for where their role is needed"},
		{"pins", "Lee Holm", "none", "may be acted for by anyone"},
		{"papers", "mask", "not here yet, 23 days left", "accepted by Kim Vale, 3 Mar"},
		{"papers", "pack", "pack guide, rev 2, up to 122 °F", "accepted by Kim Vale, 3 Mar, lapses 2026-03-31"},
		{"papers", "helmet", "not asked yet", "no wash of it starts without a gear officer's reason"},
		{"baskets", "deep", "deep: Mask × 6", "Kim Vale, 3 Mar"},
		{"stock", "buffers", "3", "counted 3 Mar, less what was used since by the log book"},
		{"stock", "soap", "not counted", "nobody counted it"},
		{"duties", "eyewash", "done 3 Mar", "every 7 days, due tomorrow"},
		{"duties", "foil", "never logged", "every 91 days"},
		{"meters", "M1", "calibrated Tuesday", "Kim Vale, Tuesday"},
	} {
		if got := value(t, parts, c.part, c.label); got.Is != c.is || got.From != c.from {
			t.Errorf("%s, %s: got %q, %q; want %q, %q", c.part, c.label, got.Is, got.From, c.is, c.from)
		}
	}
	lapsed := value(t, b.look(t, "2026-04-01 09:00").StationParts(nil), "papers", "pack")
	if want := "lapsed 2026-03-31: pack guide, rev 2"; lapsed.Is != want {
		t.Errorf("a day after it lapsed: got %q, want %q", lapsed.Is, want)
	}
	over := value(t, b.look(t, "2026-04-02 09:00").StationParts(nil), "papers", "mask")
	if want := "not here yet, the 30 days are over"; over.Is != want {
		t.Errorf("30 days after: got %q, want %q", over.Is, want)
	}
}

// Nobody who has left is listed, and where PINs are not known nothing is said
// of them.
func TestStationPartsSayNothingOfWhoIsNotThere(t *testing.T) {
	parts := setUp().add("2 07:00", &bath.Member{Name: "Ivo Lund", Left: true}).look(t, "9 09:00").StationParts(nil)
	for _, p := range parts {
		if p.ID == "pins" {
			t.Error("PINs are told that nobody knows")
		}
		if slices.ContainsFunc(p.Values, func(v advise.Value) bool { return v.Label == "Ivo Lund" }) {
			t.Errorf("%s lists somebody who has left", p.ID)
		}
	}
}

// Every setting and every value of a tank is in one part, once.
func TestEveryFieldOfTheSetUpHasItsPlace(t *testing.T) {
	count := map[string]int{}
	for _, p := range setUp().look(t, "9 09:00").StationParts(nil) {
		for _, v := range p.Values {
			count[string(v.Kind)+" "+v.Field]++
		}
	}
	for _, kind := range []bath.Kind{"tank", "setting"} {
		spec, _ := bath.SpecOf(kind)
		for _, f := range spec.Fields {
			if n := count[string(kind)+" "+f.Name]; n != 1 {
				t.Errorf("%s %s is shown %d times, want once", kind, f.Name, n)
			}
		}
	}
}

// What a form is filled in with can be read back, in both systems of units, and
// says what is there.
func TestPresetsCanBeReadBack(t *testing.T) {
	for _, sys := range []string{"us", "si"} {
		x := inService().
			add("2 13:00", &bath.Setting{Units: sys, Station: "Mill Road", RefillTime: units.Hours(2), SoapPrice: new(48.0), KeptHot: new(true)}).
			add("2 13:00", &bath.Tank{Name: "Bay 1", HeaterW: 5500, SurfaceM2: 0.31, FreeboardM: 0.1, Lid: new(true), Product: "liquid"}).
			add("2 13:00", &bath.Basket{Name: "deep", Make: bath.BasketDeep, LengthM: 0.4, WidthM: 0.3, HeightM: 0.2, Count: new(2), Holds: []bath.Load{{Item: "mask", Count: 6}, {Item: "helmet", Count: 2}}}).
			add("2 13:00", &bath.Procedure{Item: "mask", State: bath.PaperOnFile, Title: "rev C", MaxC: new(units.Temperature(48)), Longest: units.Minutes(5)}).
			look(t, "9 09:00")
		for _, p := range x.StationParts(map[string]bool{}) {
			for _, v := range p.Values {
				if v.Kind == advise.KindPIN {
					continue
				}
				if err := bath.Typed(v.Kind, v.Preset, x.Sys.Scan); err != nil {
					t.Errorf("%s, %s, %s: %v", sys, p.ID, v.Label, err)
				}
			}
		}
	}
}

func TestWhoseWordIsOfToday(t *testing.T) {
	x := setUp().add("9 08:00", &bath.Setting{FilterTime: units.SpanOf(45 * time.Minute)}).look(t, "9 09:00")
	want := advise.Value{
		Label: "filter run", Is: "45 min", From: "Kim Vale, today", Help: "once on a day that gear was washed",
		Kind: "setting", Field: "filter-run", Preset: map[string]string{"filter-run": "45 min"},
	}
	if diff := cmp.Diff(want, value(t, x.StationParts(nil), "limits", "filter run")); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// A permission to drain stands in the set-up with its last day, and says when
// that is over.
func TestPermissionsStandInTheSetUp(t *testing.T) {
	b := inService().add("3 08:00", &bath.Discharge{Stream: bath.StreamLiquid, Route: bath.RouteSewer, From: "sewer district", Title: "sewer rules, part 4", Dated: "2025-05-01", Lapses: "2026-03-15"})
	for day, want := range map[string]string{"10 08:00": "sewer rules, part 4, until 2026-03-15", "20 08:00": "lapsed 2026-03-15: sewer rules, part 4"} {
		for _, p := range b.look(t, day).StationParts(nil) {
			if p.ID == "permissions" && (len(p.Values) != 1 || p.Values[0].Is != want) {
				t.Errorf("on %s: got %+v, want %q", day, p.Values, want)
			}
		}
	}
}
