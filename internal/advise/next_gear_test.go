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

func piece(g bath.Gear, cleaned ...string) bath.Piece {
	p := bath.Piece{Gear: g}
	for _, c := range cleaned {
		p.Cleaned = append(p.Cleaned, at(c))
	}
	return p
}

func clock(p bath.Piece, now, id string) (advise.Clock, bool) {
	clocks := advise.Clocks(p, at(now), units.Times{})
	i := slices.IndexFunc(clocks, func(c advise.Clock) bool { return c.ID == id })
	if i < 0 {
		return advise.Clock{}, false
	}
	return clocks[i], true
}

// TestCleaningClock: at least two proper cleanings in any 365 days, and a
// reminder six months after the last (NFPA 1851, by Horn et al., Fire
// Technology 2021).
func TestCleaningClock(t *testing.T) {
	helmet := bath.Gear{Tag: "H-1", Item: "helmet"}
	tests := []struct {
		name    string
		cleaned []string
		now     string
		count   int
		over    bool
		say     string
	}{
		{"never", nil, "9 07:00", 0, false, "no cleaning is logged"},
		{"once, last week", []string{"2 08:00"}, "9 07:00", 1, false, "to be cleaned by 2 Sep 2026"},
		{"once, more than a year ago", []string{"2025-03-01 08:00"}, "9 07:00", 0, true, "0 cleaned in the last 12 months, 2 at least"},
		{"twice in the year", []string{"2025-09-01 08:00", "2 08:00"}, "9 07:00", 2, false, "to be cleaned by 2 Sep 2026"},
		{"364 days and 23 hours", []string{"2025-03-09 08:00", "2025-09-01 08:00"}, "9 07:00", 2, false, "to be cleaned by 1 Mar 2026"},
		{"365 days", []string{"2025-03-09 06:00", "2025-09-01 08:00"}, "9 07:00", 1, true, "1 cleaned in the last 12 months, 2 at least"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := piece(helmet, tt.cleaned...)
			if got := advise.Cleanings(p, at(tt.now)); got != tt.count {
				t.Errorf("got %d cleanings, want %d", got, tt.count)
			}
			c, ok := clock(p, tt.now, "clean")
			if !ok || c.Over != tt.over || c.Say != tt.say {
				t.Errorf("got %t %q, want %t %q", c.Over, c.Say, tt.over, tt.say)
			}
		})
	}
	if _, ok := clock(piece(bath.Gear{Item: "mask"}), "9 07:00", "clean"); ok {
		t.Error("a mask is no element, and has a cleaning clock")
	}
}

// A mask is inspected at least monthly (29 CFR 1910.134(h)(3)(i), by WAC
// 296-307-61015).
func TestInspectionClock(t *testing.T) {
	mask := piece(bath.Gear{Tag: "M-1", Item: "mask"})
	if c, _ := clock(mask, "9 07:00", "inspect"); !c.Over || c.Say != "no inspection is logged" {
		t.Errorf("got %+v", c)
	}
	mask.Inspected = new(at("2 10:00"))
	for now, over := range map[string]bool{"2026-04-02 09:59": false, "2026-04-02 10:00": true} {
		if c, _ := clock(mask, now, "inspect"); c.Over != over || c.Say != "to be inspected by 2 Apr" {
			t.Errorf("%s: got %t %q, want %t", now, c.Over, c.Say, over)
		}
	}
}

func TestGearClocks(t *testing.T) {
	// The demo of dates: a helmet of March 2016 is retired by March 2026, a
	// cylinder of May 2021 is requalified by May 2026 and ends in May 2036.
	b := inService().
		add("3 09:00", &bath.Gear{Tag: "H-1", Item: "helmet", Made: bath.Month{Year: 2016, Of: time.March}}).
		add("3 09:00", &bath.Gear{Tag: "C-1", Item: "cylinder", Built: bath.BuiltCarbon, Made: bath.Month{Year: 2021, Of: time.May}})
	retire := func(u advise.Urgency) advise.Action {
		return advise.Action{Urgency: u, Kind: "gear", Say: "Retire H-1", Preset: map[string]string{"tag": "H-1"},
			Why: "H-1: to be retired by Mar 2026 (NFPA 1851: 10 years from the month of manufacture, by a public summary)"}
	}
	says(t, "gear-retire", []moment{
		{"within the month", b, "31 23:00", retire(advise.Soon)},
		{"the day after", b, "2026-04-01 00:00", retire(advise.Today)},
		{"gone", b.add("9 09:00", &bath.Gear{Tag: "H-1", Gone: "retired"}), "2026-04-01 00:00", advise.Action{}},
	})
	says(t, "gear-requalify", []moment{
		{"three months and a day ahead", b, "2026-02-28 23:00", advise.Action{}},
		{"three months ahead", b, "9 07:00", advise.Action{Urgency: advise.Soon, Kind: "gear", Say: "Have requalified: C-1", Preset: map[string]string{"tag": "C-1"},
			Why: "C-1: to be requalified by May 2026 (49 CFR 180.209 Table 1; its own permit comes first)"}},
		{"done", b.add("9 06:00", &bath.Gear{Tag: "C-1", Requalified: bath.Month{Year: 2026, Of: time.March}}), "2026-06-02 07:00", advise.Action{}},
	})
	many := inService()
	for _, tag := range []string{"M-1", "M-2", "M-3", "M-4", "M-5"} {
		many = many.add("3 09:00", &bath.Gear{Tag: tag, Item: "mask"})
	}
	says(t, "gear-inspect", []moment{
		{"none inspected", many, "9 07:00", advise.Action{Urgency: advise.Today, Kind: "inspect", Say: "Inspect M-1, M-2, M-3 and 2 more", Preset: map[string]string{"tags": "M-1, M-2, M-3, M-4, M-5"},
			Why: "M-1: no inspection is logged (monthly: 29 CFR 1910.134(h)(3)(i), by WAC 296-307-61015)"}},
		{"all inspected", many.add("9 06:00", &bath.Inspect{Tags: bath.Tags{"M-1", "M-2", "M-3", "M-4", "M-5"}}), "9 07:00", advise.Action{}},
	})
}

func TestGearIsListedAsPeopleCount(t *testing.T) {
	b := inService()
	for _, g := range []bath.Gear{{Tag: "M-12", Item: "mask"}, {Tag: "M-2", Item: "mask"}, {Tag: "C-1", Item: "cylinder"}, {Tag: "spare", Item: "mask"}} {
		b = b.add("3 09:00", &g)
	}
	var got []string
	for _, g := range b.look(t, "9 07:00").Gear() {
		got = append(got, g.Tag+" "+g.Where)
	}
	if diff := cmp.Diff([]string{"C-1 in service", "M-2 in service", "M-12 in service", "spare in service"}, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
