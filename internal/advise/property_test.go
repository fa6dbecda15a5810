package advise_test

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Any log book, sensible or not: an imported file may hold lines that no rule
// of entry has seen.
func TestAnyBookIsAssessed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBook(t)
		x := b.look(t, "9 07:00")
		checkActions(t, x)
		checkState(t, x)
		say, _ := x.Preview(&bath.Reading{PH: ph(t), SampleC: celsius(t), Baseline: yes(t, "baseline"), Cooled: yes(t, "cooled")})
		checkWords(t, say, x.DropSay(), x.TagSay(), advise.StateWord(x.PH.State))
	})
}

// checkActions holds what every action promises.
func checkActions(t *rapid.T, x *advise.Snapshot) {
	if !slices.IsSortedFunc(x.Next, func(a, b advise.Action) int { return int(a.Urgency - b.Urgency) }) {
		t.Errorf("not sorted by urgency: %v", x.Next)
	}
	seen := map[string]bool{}
	for _, a := range x.Next {
		if a.ID == "" || seen[a.ID] {
			t.Errorf("the id %q is empty or twice in %v", a.ID, ids(x))
		}
		seen[a.ID] = true
		if a.Say == "" || a.Why == "" || a.Urgency < advise.Now || a.Urgency > advise.Later {
			t.Errorf("%s: lacks words or urgency: %+v", a.ID, a)
		}
		if _, ok := bath.SpecOf(a.Kind); a.Kind != "" && !ok {
			t.Errorf("%s: %q is no kind of entry", a.ID, a.Kind)
		}
		checkWords(t, a.Say, a.Why)
	}
}

// bad is what a sentence holds when a number or a time was missing.
var bad = regexp.MustCompile(`NaN|Inf|0001|%!|not known|<nil>|  | ,|,,|\.\.|::|; ;|-\d`)

func checkWords(t *rapid.T, sentences ...string) {
	for _, s := range sentences {
		if m := bad.FindString(s); m != "" {
			t.Errorf("%q in %q", m, s)
		}
		if strings.TrimSpace(s) != s {
			t.Errorf("%q is not trimmed", s)
		}
	}
}

// checkState: what is missing never reads as OK, and comes with something to
// do; under a red tag that is the tag, and nothing readies the bath.
func checkState(t *rapid.T, x *advise.Snapshot) {
	ok := x.PH.State == advise.PHOK
	if ok != (advise.StateWord(x.PH.State) == "OK") {
		t.Errorf("state %q reads %q", x.PH.State, advise.StateWord(x.PH.State))
	}
	if ok && (!x.Open || x.PH.Drop == nil || x.PH.Last == nil || x.PH.Last.Against == nil) {
		t.Errorf("OK with nothing to compare: %+v", x.PH)
	}
	if x.PH.State == advise.PHUnknown && len(x.Next) == 0 {
		t.Error("the state is unknown, and there is nothing to do")
	}
	if x.Bath.Tag == nil {
		return
	}
	if x.Next[0].ID != "red-tag" {
		t.Errorf("the tag is not first in %v", ids(x))
	}
	for _, id := range []string{"fill", "dose", "heat", "degas", "baseline", "filter"} {
		if slices.Contains(ids(x), id) {
			t.Errorf("%s under a red tag", id)
		}
	}
}

// anyBook is a station with up to forty further lines in any order of time, in
// one book of four by a clock that ran ahead.
func anyBook(t *rapid.T) book {
	b := rapid.SampledFrom([]book{bare(), setUp(), inService()}).Draw(t, "start")
	latest := 0
	if rapid.IntRange(0, 3).Draw(t, "clock") == 3 {
		latest = 3 * 24 * 60
	}
	for range rapid.IntRange(0, 40).Draw(t, "lines") {
		body := anyBody(t, len(b))
		when := at("9 07:00").Add(time.Duration(rapid.IntRange(-12*24*60, latest).Draw(t, "minutes")) * time.Minute)
		b = b.add(when.Format("2006-01-02 15:04"), body)
	}
	return b
}

func anyBody(t *rapid.T, lines int) bath.Body {
	washed := func() bath.Body { return wash(celsius(t), pick(t, "clean", "again", "again", "damaged")) }
	kinds := []func() bath.Body{
		washed, washed, washed, // as in life, more than anything else
		func() bath.Body { return &bath.Fill{VolumeL: litres(t), WaterC: maybe(t, celsius)} },
		func() bath.Body { return &bath.Dose{VolumeL: litres(t)} },
		func() bath.Body {
			return &bath.Temp{BathC: celsius(t), SetC: maybe(t, celsius), Heat: maybe(t, heating)}
		},
		func() bath.Body {
			return &bath.Reading{PH: ph(t), SampleC: celsius(t), Meter: pick(t, "", "M1", "M2"), Baseline: yes(t, "baseline"), Cooled: yes(t, "cooled")}
		},
		func() bath.Body {
			return &bath.Water{VolumeL: litres(t), Cause: pick(t, "evaporation", "spill"), BelowL: maybe(t, litres)}
		},
		func() bath.Body {
			return &bath.Filter{Time: units.Minutes(float64(rapid.IntRange(1, 1440).Draw(t, "filter")))}
		},
		func() bath.Body { return &bath.Degas{Time: 900} },
		func() bath.Body { return &bath.Drain{VolumeL: litres(t), Route: "hold"} },
		func() bath.Body { return &bath.Clean{} },
		func() bath.Body {
			return &bath.Hold{Cause: pick(t, "contaminated", "leak", "foil"), Why: "see the note"}
		},
		func() bath.Body { return &bath.Release{Why: "repaired"} },
		func() bath.Body { return &bath.Media{Stage: pick(t, "1", "2"), Route: "hold"} },
		func() bath.Body { return &bath.Duty{What: pick(t, "eyewash", "foil", "inspection")} },
		func() bath.Body { return &bath.Tank{HeaterW: units.Power(rapid.IntRange(1, 9000).Draw(t, "heater"))} },
		func() bath.Body {
			return &bath.Setting{Shift: pick(t, "48/96@08:00", "drill:tue@19:00"), Units: pick(t, "us", "si")}
		},
		func() bath.Body { return crossOut(t, lines) },
	}
	return kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")]()
}

// crossOut takes back a line of the bath, or leaves no more of it than a tag
// needs.
func crossOut(t *rapid.T, lines int) bath.Body {
	s := &bath.Strike{Target: uint64(rapid.IntRange(5, 5+lines).Draw(t, "target")), Why: "typed wrong"}
	if yes(t, "instead") {
		s.Instead = json.RawMessage(`{"kind":"leak","why":"see the note"}`)
	}
	return s
}

func ph(t *rapid.T) units.PH { return units.PH(rapid.IntRange(600, 1200).Draw(t, "pH")) / 100 }

// celsius is any temperature of liquid water, as often as not one near a set
// point.
func celsius(t *rapid.T) units.Temperature {
	return units.Temperature(rapid.OneOf(rapid.Float64Range(1, 99), rapid.Float64Range(45, 56)).Draw(t, "°C"))
}

func litres(t *rapid.T) units.Volume { return units.Volume(rapid.Float64Range(0, 300).Draw(t, "L")) }

func heating(t *rapid.T) bool { return yes(t, "heating") }

func yes(t *rapid.T, what string) bool { return rapid.Bool().Draw(t, what) }

func pick(t *rapid.T, words ...string) string { return rapid.SampledFrom(words).Draw(t, "word") }

// maybe is a value, or nil.
func maybe[V any](t *rapid.T, draw func(*rapid.T) V) *V {
	if yes(t, "absent") {
		return nil
	}
	return new(draw(t))
}

// The books above would prove nothing if they were all of one sort.
func TestAnyBookReachesEveryRule(t *testing.T) {
	want := []string{
		"red-tag", "clock", "too-hot", "low-mark", "clean", "fill", "dose", "heat", "degas", "baseline", "baseline-cooled",
		"limit", "cool", "doubt", "read-again", "reading", "filter", "mark", "again", "cartridge-1", "cartridge-2",
		"duty-eyewash", "duty-foil", "duty-inspection",
	}
	seen := map[string]bool{}
	gen := rapid.Custom(anyBook)
	for seed := range 3000 {
		b := gen.Example(seed)
		for _, id := range ids(b.look(t, "9 07:00")) {
			seen[id] = true
		}
	}
	for _, id := range want {
		if !seen[id] {
			t.Errorf("no book makes %s speak", id)
		}
	}
}
