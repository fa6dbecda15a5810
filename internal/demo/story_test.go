package demo_test

import (
	"slices"
	"testing"
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

var noon = time.Date(2026, 6, 3, 12, 0, 0, 0, time.UTC)

// counted are the lines that are not crossed out.
func counted(state *bath.State, lines []bath.Entry) []bath.Entry {
	return slices.DeleteFunc(slices.Clone(lines), func(e bath.Entry) bool { return state.Struck[e.Seq] != 0 })
}

func TestStoryHasEveryKindOfLine(t *testing.T) {
	_, lines := built(t, noon)
	for _, spec := range bath.Specs() {
		if !slices.ContainsFunc(lines, func(e bath.Entry) bool { return e.Kind() == spec.Kind }) {
			t.Errorf("the demo has no %s", spec.Kind)
		}
	}
}

func TestStoryIsInOrderAndWrittenOnTheDay(t *testing.T) {
	state, lines := built(t, noon)
	shifts, zone := state.Shifts(), state.Zone()
	before := lines[0].At
	for _, e := range lines {
		if e.At.Before(before) {
			t.Errorf("line %d happened before the line above it", e.Seq)
		}
		before = e.At
		if _, end := shifts.Day(e.At.In(zone)); e.Logged.Before(e.At) || e.Logged.After(end) {
			t.Errorf("line %d happened %s and was written %s", e.Seq, e.At, e.Logged)
		}
		if h := e.At.In(zone).Hour(); h < 4 {
			t.Errorf("line %d stands at %d o'clock, when clocks are changed", e.Seq, h)
		}
	}
}

func TestStoryIsWrittenByWhoeverWasOnDuty(t *testing.T) {
	state, lines := built(t, noon)
	for _, e := range lines {
		m, err := state.Member(e.By)
		if err != nil {
			t.Fatal(err)
		}
		if on := state.Shifts().At(e.At.In(state.Zone())).Platoon; m.Platoon != "" && m.Platoon != on {
			t.Errorf("line %d, %s: %s is of platoon %s, and %s was on duty", e.Seq, e.At.Format("2 Jan 15:04"), e.By, m.Platoon, on)
		}
	}
}

func TestStoryHasItsTurns(t *testing.T) {
	state, lines := built(t, noon)
	lives := state.Baths[0].Lives()
	if len(lives) != 2 || lives[0].Drain == nil || lives[1].Drain != nil {
		t.Fatalf("got %d fills, want one that was drained and one that is open", len(lives))
	}
	older, open := lives[0], lives[1]
	drop := advise.Judge(state, state.Baths[0], older)
	var outside, tagged int
	for _, w := range bath.Of[*bath.Wash](lines) {
		outside += min(1, len(w.Is.Outside))
	}
	if state.Baths[0].Tag == nil {
		tagged = len(bath.Of[*bath.Hold](lines))
	}
	for what, got := range map[string]bool{
		"the older fill ended at its limit":           drop.State == advise.PHAtLimit,
		"the drain kept the rules":                    len(older.Drain.Is.Outside) == 0,
		"a cleaning between the fills":                len(bath.Of[*bath.Clean](lines)) == 1,
		"a top-up in the open fill":                   open.Topups() == 1,
		"a first reading, hot and cooled":             hasPair(older) && hasPair(open),
		"a line crossed out":                          len(state.Struck) == 1,
		"one wash outside the rule":                   outside == 1,
		"a red tag, lifted":                           tagged == 1,
		"a spill made up with water":                  len(bath.Of[*bath.Spill](lines)) == 1,
		"a cold reading":                              coldReadings(open) == 1,
		"washes by the timer, one of them broken off": len(bath.Of[*bath.Start](lines)) == 4 && len(bath.Of[*bath.Abort](lines)) == 1,
		"a result for each of them":                   state.Baths[0].Run == nil,
		"a maker's paper that was waited for":         len(bath.Of[*bath.Procedure](lines)) == 5 && len(state.Papers) == 4,
		"two gear officers, and key holders enough":   roles(state)[bath.Officer] >= 2 && roles(state)[bath.KeyHolder] >= 3,
	} {
		if !got {
			t.Errorf("the demo lacks: %s", what)
		}
	}
}

func hasPair(l bath.Life) bool {
	_, hot := l.Baseline(false)
	_, cooled := l.Baseline(true)
	return hot && cooled
}

// coldReadings are those that can be compared with neither first reading.
func coldReadings(l bath.Life) (n int) {
	hot, _ := l.Baseline(false)
	cooled, _ := l.Baseline(true)
	for _, r := range bath.Of[*bath.Reading](l.Entries) {
		if r.Is.SampleC > cooled.Is.SampleC+advise.Comparable && r.Is.SampleC < hot.Is.SampleC-advise.Comparable {
			n++
		}
	}
	return n
}

func roles(s *bath.State) map[bath.Role]int {
	n := map[bath.Role]int{}
	for _, m := range s.Members {
		n[m.Role]++
	}
	return n
}

// TestStoryWashesAsTheTradeDoes: masks go in first, at 95 to 110 °F, lightly
// soiled, and everything else at 118 to 122 °F, with the minutes that the
// catalog has for the soil. 110 F is 29 CFR 1910.134 App. B-2; the rest is
// common practice, no source.
func TestStoryWashesAsTheTradeDoes(t *testing.T) {
	cat := shipped()
	_, lines := built(t, noon)
	for _, w := range bath.Of[*bath.Wash](lines) {
		if len(w.Is.Outside) > 0 {
			continue
		}
		low, high := units.Fahrenheit(118), units.Fahrenheit(122)
		if w.Is.Items[0].Item == "mask" {
			low, high = units.Fahrenheit(95), units.Fahrenheit(110)
		}
		if w.Is.BathC < low-0.01 || w.Is.BathC > high+0.01 {
			t.Errorf("line %d: %s", w.Seq, w.Say(units.US))
		}
		for _, l := range w.Is.Items {
			item, err := cat.Item(l.Item)
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(w.Is.Time) / 60; got < item.Minutes.Light || got > item.Minutes.Longest {
				t.Errorf("line %d: %g minutes for %s", w.Seq, got, item.Name)
			}
		}
	}
}

// TestStoryForgetsTheFilterOnce, and waits with it once more for whoever looks
// at the demo. On every other duty day with a wash it ran.
func TestStoryForgetsTheFilterOnce(t *testing.T) {
	state, lines := built(t, noon)
	day := func(e bath.Entry) time.Time {
		start, _ := state.Shifts().Day(e.At.In(state.Zone()))
		return start
	}
	filtered := map[time.Time]bool{}
	for _, f := range bath.Of[*bath.Filter](lines) {
		filtered[day(f.Entry)] = true
	}
	forgotten := map[time.Time]bool{}
	for _, w := range bath.Of[*bath.Wash](lines) {
		if d := day(w.Entry); !filtered[d] {
			forgotten[d] = true
		}
	}
	if len(forgotten) != 2 {
		t.Errorf("the filter did not run after the washes of %d days, want 2: %v", len(forgotten), forgotten)
	}
}

// TestStorySlopesAsABathCan holds the hot and cooled pairs between the two
// ends that are known: a carbonate buffer, whose pH falls from 10.012 at 25 °C
// to 9.828 at 50 °C (IUPAC 2002 recommendations, the NIST carbonate standard),
// and free alkali, which follows the water itself, pKw 13.995 to 13.265 (IAPWS
// R11-07).
func TestStorySlopesAsABathCan(t *testing.T) {
	const carbonate, hydroxide = (10.012 - 9.828) / 25, (13.995 - 13.265) / 25 // pH per °C
	state, _ := built(t, noon)
	for _, life := range state.Baths[0].Lives() {
		hot, _ := life.Baseline(false)
		cooled, _ := life.Baseline(true)
		slope := float64(cooled.Is.PH-hot.Is.PH) / float64(hot.Is.SampleC-cooled.Is.SampleC)
		if slope < carbonate || slope > hydroxide {
			t.Errorf("fill %d: pH falls by %.4f a degree, want %.4f to %.4f", life.Number, slope, carbonate, hydroxide)
		}
	}
}

// TestStoryDoesNotRepeatTheUsualValues keeps the figures usual in
// demonstrations out of ours: 60 gal, 30 to 1, 126 °F, 10.1.
func TestStoryDoesNotRepeatTheUsualValues(t *testing.T) {
	state, lines := built(t, noon)
	tank := state.Baths[0].Tank
	if tank.VolumeL == units.Gallons(60) || tank.Ratio == 30 || tank.Set() == units.Fahrenheit(126) {
		t.Errorf("the tank is the usual one: %s", tank.Product)
	}
	for _, r := range bath.Of[*bath.Reading](counted(state, lines)) {
		if r.Is.PH == 10.1 {
			t.Errorf("line %d reads 10.10", r.Seq)
		}
	}
}
