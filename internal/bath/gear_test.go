package bath_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func month(t testing.TB, text string) (m bath.Month) {
	t.Helper()
	if err := m.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return m
}

func TestGearRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "by a key holder", by: keyHolder, body: &bath.Gear{Tag: "M-9", Item: "mask"}, id: "role", say: "is for a gear officer"},
		{name: "no tag", by: officer, body: &bath.Gear{Item: "mask"}, id: "missing", say: "the piece has no tag: give one, like M-12"},
		{name: "a list for a tag", by: officer, body: &bath.Gear{Tag: "M-1,M-2", Item: "mask"}, id: "input", say: `"M-1,M-2" is not a tag: at most 16 letters`},
		{name: "too long", by: officer, body: &bath.Gear{Tag: "12345678901234567", Item: "mask"}, id: "input", say: "at most 16 letters and figures"},
		{name: "a new one of no type", by: officer, body: &bath.Gear{Tag: "M-9"}, id: "missing", say: "tag M-9 is new: say what it is"},
		{name: "made next year", by: officer, body: &bath.Gear{Tag: "M-9", Item: "mask", Made: bath.Month{Year: 2027, Of: 1}}, id: "input", say: "made Jan 2027 is in the future"},
		{name: "stamped next month", by: officer, body: &bath.Gear{Tag: "C-9", Item: "cylinder", Requalified: bath.Month{Year: 2026, Of: 4}}, id: "input", say: "requalified Apr 2026 is in the future"},
		{name: "hold of nothing", on: tagged, body: &bath.GearHold{Why: "x"}, id: "missing", say: "which gear is it? Give its tag, or the line of its wash"},
		{name: "hold of both", on: waiting, body: &bath.GearHold{Why: "x", Tag: "M-1", Wash: washLine}, id: "missing", say: "which gear is it?"},
		{name: "hold without a reason", on: tagged, body: &bath.GearHold{Tag: "M-1"}, id: "missing", say: "what is wrong with it?"},
		{name: "hold of an unknown tag", on: tagged, body: &bath.GearHold{Why: "x", Tag: "M-9"}, id: "tag", say: "tag M-9 is not in the gear list: a gear officer registers it, or give the line of its wash"},
		{name: "hold of what is back", on: tagged, body: &bath.GearHold{Why: "x", Wash: 3}, id: "no-batch", say: "nothing of line 3 is in care"},
		{name: "release by crew", on: tagged, body: &bath.GearRelease{Why: "x", Tag: "M-1"}, id: "role", say: "is for a gear officer"},
		{name: "release of what is free", on: tagged, by: officer, body: &bath.GearRelease{Why: "x", Tag: "M-1"}, id: "not-held", say: "M-1 is not held: there is nothing to lift"},
		{name: "inspection of nothing", on: tagged, body: &bath.Inspect{}, id: "missing", say: "what was looked over?"},
		{name: "inspection of an unknown tag", on: tagged, body: &bath.Inspect{Tags: bath.Tags{"M-9"}}, id: "tag", say: "tag M-9 is not in the gear list"},
		{name: "wash of an unknown tag", on: tagged, by: keyHolder, body: careWash("M-9"), id: "tag", say: "tag M-9 is not in the gear list: a gear officer registers it, or leave the tag out and count only"},
		{name: "start of an unknown tag", on: tagged, by: keyHolder, body: &bath.Start{Items: careWash().Items, Tags: bath.Tags{"M-9"}, Time: 240, BathC: 40}, id: "tag", say: "tag M-9 is not in the gear list"},
		{name: "wash of a tag twice", on: tagged, by: keyHolder, body: careWash("M-1", "m-1"), id: "twice", say: "tag M-1 is in the list twice: give it once"},
		{name: "wash of a tag that is no part of it", on: tagged, by: keyHolder, body: careWash("H-1"), id: "tag-count", say: "tag H-1 is a helmet, and the load counts fewer"},
		{name: "more tags than packs", on: func(t testing.TB) *book {
			b := tagged(t)
			b.log(officer, &bath.Gear{Tag: "P-2", Item: "pack"})
			return b
		}, by: keyHolder, body: careWash("P-1", "P-2"), id: "tag-count", say: "tag P-2 is a pack, and the load counts fewer"},
	})
}

func TestRecordingATagAgainChangesIt(t *testing.T) {
	b := tagged(t)
	b.log(officer, &bath.Gear{Tag: "m-1", Model: "full face", Made: month(t, "2021-06"), IssuedTo: crew})
	want := bath.Gear{Tag: "M-1", Item: "mask", Serial: "40117", Model: "full face", Made: bath.Month{Year: 2021, Of: 6}, IssuedTo: crew}
	p, ok := b.state.Piece(" M-1")
	if diff := cmp.Diff(want, p.Gear); !ok || diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	b.log(officer, &bath.Gear{Tag: "M-1", Gone: "retired"})
	if p, _ := b.state.Piece("M-1"); b.state.Where(p) != bath.GearOut {
		t.Errorf("got %s, want out", b.state.Where(p))
	}
	b.log(officer, &bath.Gear{Tag: "M-1"})
	if p, _ := b.state.Piece("M-1"); b.state.Where(p) != bath.GearInService {
		t.Errorf("got %s, want it back", b.state.Where(p))
	}
}

// What is held or gone is stopped at the start, and marked where it was washed
// all the same.
func TestHeldGearDoesNotGoIn(t *testing.T) {
	b := tagged(t)
	b.log(crew, &bath.GearHold{Tag: "M-1", Why: "lens cracked"})
	b.log(officer, &bath.Gear{Tag: "M-2", Gone: "lost at the pier"})
	for tag, want := range map[string]string{"M-1": "M-1 is held by Lee Holm: lens cracked", "M-2": "M-2 is out of service: lost at the pier", "P-1": ""} {
		s := &bath.Start{Items: careWash().Items, Tags: bath.Tags{tag}, Time: units.Minutes(4), BathC: units.Fahrenheit(100)}
		gates, err := bath.Gates(b.state, b.draft(keyHolder, b.now, s), b.now)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, g := range gates {
			if g.ID == "held-item" {
				got = g.Wrong
			}
		}
		if got != want {
			t.Errorf("%s: got %q, want %q", tag, got, want)
		}
	}
	w := careWash("M-1", "M-2")
	b.log(keyHolder, w)
	checkOutside(t, w.Outside, "M-1 is held", "M-2 is out of service")
}

func TestAPieceIsFollowed(t *testing.T) {
	b := tagged(t)
	where := func(want string) {
		t.Helper()
		p, _ := b.state.Piece("M-1")
		if got := b.state.Where(p); got != want {
			t.Errorf("M-1 is %s, want %s", got, want)
		}
	}
	where(bath.GearInService)
	again := careWash("M-1")
	again.Result = bath.ResultAgain
	b.log(keyHolder, again)
	where(bath.GearWaiting)
	first := b.log(keyHolder, careWash("M-1"))
	where("rinse")
	b.log(crew, step(first.Seq, "rinse"))
	where("disinfect")
	b.log(keyHolder, careWash("M-1")) // once more: it starts from the rinse
	where("rinse")
	if n := b.bath().Batches[0].Count; n != 3 {
		t.Errorf("%d masks are left of the first wash, want 3", n)
	}
	damaged := careWash("M-1")
	damaged.Result = bath.ResultDamaged
	b.log(keyHolder, damaged)
	where(bath.GearHeld)
	b.log(officer, &bath.GearRelease{Tag: "M-1", Why: "strap renewed"})
	where(bath.GearWaiting)
	p, _ := b.state.Piece("M-1")
	if p.Washes != 4 || len(p.Cleaned) != 2 {
		t.Errorf("got %d washes and %d cleanings, want 4 and 2", p.Washes, len(p.Cleaned))
	}
}

func TestMonthsAreReadAsPeopleWriteThem(t *testing.T) {
	for text, want := range map[string]string{
		"2019-03": "2019-03", "2019-03-17": "2019-03", "03/2019": "2019-03", "3/2019": "2019-03", " 2019-12 ": "2019-12",
		"19-03": "", "2019-13": "", "March 2019": "", "0000-01": "", "": "",
	} {
		var m bath.Month
		err := m.UnmarshalText([]byte(text))
		if got := m.String(); err == nil && got != want || err != nil && want != "" {
			t.Errorf("%q: got %s, %v, want %q", text, got, err, want)
		}
	}
	data, err := json.Marshal(&bath.Gear{Tag: "M-1", Made: bath.Month{Year: 2019, Of: 3}})
	if want := `{"tag":"M-1","made":"2019-03"}`; err != nil || string(data) != want {
		t.Errorf("got %s, %v, want %s", data, err, want)
	}
}

// TestClocksOfGear: an element is retired 120 months after its month of
// manufacture (NFPA 1851, by a city's service agreement of 2019); a carbon
// cylinder is requalified every 60 months and ends after 180 (49 CFR 180.209
// Table 1; a fire department's cylinder manual of 2025). A month is good to
// its last day.
func TestClocksOfGear(t *testing.T) {
	tests := []struct {
		name                 string
		gear                 bath.Gear
		retire, requal, ends string
	}{
		{"helmet", bath.Gear{Item: "helmet", Made: month(t, "2016-03")}, "2026-03", "", ""},
		{"soft parts made in December", bath.Gear{Item: "soft-parts", Made: month(t, "2015-12")}, "2025-12", "", ""},
		{"helmet of an unknown month", bath.Gear{Item: "helmet"}, "", "", ""},
		{"mask: no element", bath.Gear{Item: "mask", Made: month(t, "2016-03")}, "", "", ""},
		{"carbon, never requalified", bath.Gear{Item: "cylinder", Built: bath.BuiltCarbon, Made: month(t, "2019-03")}, "", "2024-03", "2034-03"},
		{"carbon, requalified", bath.Gear{Item: "cylinder", Built: bath.BuiltCarbon, Made: month(t, "2019-03"), Requalified: month(t, "2024-02")}, "", "2029-02", "2034-03"},
		{"carbon, its record ends it sooner", bath.Gear{Item: "cylinder", Built: bath.BuiltCarbon, Made: month(t, "2019-03"), Ends: month(t, "2030-01")}, "", "2024-03", "2030-01"},
		{"hoop-wrapped", bath.Gear{Item: "cylinder", Built: bath.BuiltWrapped, Made: month(t, "2019-03")}, "", "2022-03", "2034-03"},
		{"steel has no fixed life", bath.Gear{Item: "cylinder", Built: bath.BuiltSteel, Made: month(t, "2019-03")}, "", "2024-03", ""},
		{"of what is not said", bath.Gear{Item: "cylinder", Made: month(t, "2019-03")}, "", "2024-03", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for what, c := range map[string]struct {
				got  func() (bath.Month, bool)
				want string
			}{"retire": {tt.gear.RetireBy, tt.retire}, "requalify": {tt.gear.RequalifyBy, tt.requal}, "ends": {tt.gear.LifeEnds, tt.ends}} {
				m, ok := c.got()
				if ok != (c.want != "") || ok && m.String() != c.want {
					t.Errorf("%s: got %s, %t, want %q", what, m, ok, c.want)
				}
			}
		})
	}
}

func TestAMonthIsGoodToItsLastDay(t *testing.T) {
	helmet := bath.Gear{Item: "helmet", Made: month(t, "2016-03")}
	for at, want := range map[time.Time]string{
		time.Date(2026, 3, 31, 23, 59, 0, 0, denver): "",
		time.Date(2026, 4, 1, 0, 0, 0, 0, denver):    "it was made in Mar 2016 and was to be retired by Mar 2026",
	} {
		if got := helmet.Expired(at); got != want {
			t.Errorf("%s: got %q, want %q", at, got, want)
		}
	}
}
