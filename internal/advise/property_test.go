package advise_test

import (
	"cmp"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// Any log book, sensible or not: an imported file may hold lines that no rule
// of entry has seen.
func TestAnyBookIsAssessed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBook(t)
		x := b.look(t, "9 07:00")
		checkActions(t, x)
		checkState(t, x)
		checkDecision(t, x)
		checkTrend(t, x)
		say, _ := x.Preview(anyReading(t))
		checkWords(t, say, x.DropSay(), x.TagSay(), advise.StateWord(x.PH.State))
		checkWords(t, x.PreviewBody(anyDrain(t)))
		x.PreviewBody(anyStart(t)) // its sentences are those of the gates
		x.PreviewBody(anyBody(t, len(b)))
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

// written is a date as it is typed, and shown as it was.
var written = regexp.MustCompile(`\d{4}-\d\d-\d\d`)

func checkWords(t *rapid.T, sentences ...string) {
	for _, s := range sentences {
		if m := bad.FindString(written.ReplaceAllString(s, "a date")); m != "" {
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

// checkDecision: there is an answer with its reasons, in order of weight; what is
// signed can be kept; and a contaminated bath shows no top-up.
func checkDecision(t *rapid.T, x *advise.Snapshot) {
	d, err := x.Decide()
	if (err == nil) != x.Open {
		t.Fatalf("open %v: %v", x.Open, err)
	}
	if err != nil {
		return
	}
	if !slices.Contains([]string{bath.ChoiceKeep, bath.ChoiceTopUp, bath.ChoiceDrain}, d.Choice) || len(d.Reasons) == 0 {
		t.Errorf("got %q, %+v", d.Choice, d.Reasons)
	}
	if !slices.IsSortedFunc(d.Reasons, func(a, b advise.Reason) int { return cmp.Compare(b.Weight, a.Weight) }) {
		t.Errorf("not by weight: %+v", d.Reasons)
	}
	for _, r := range d.Reasons {
		checkWords(t, strings.ReplaceAll(r.Say, "is not known", "is in doubt")) // a reason may say so
	}
	checkWords(t, d.Flips...)
	if x.Bath.Tag != nil && x.Bath.Tag.Kind == bath.HoldContaminated && (d.Choice != bath.ChoiceDrain || d.TopUp != nil) {
		t.Errorf("contaminated: %q, %+v", d.Choice, d.TopUp)
	}
	if x.PH.State == advise.PHUnknown && d.Choice == bath.ChoiceTopUp {
		t.Errorf("more soap for a bath of which nothing is known: %+v", d.Reasons)
	}
	signed := bath.Decision{Choice: d.Choice}
	if err := x.Sign(&signed); err != nil {
		t.Error(err)
	}
	if _, err := json.Marshal(&signed); err != nil {
		t.Errorf("%v: %+v", err, signed.Evidence)
	}
}

// checkTrend: its dates are in order and not in the past, and so is its fan.
func checkTrend(t *rapid.T, x *advise.Snapshot) {
	checkWords(t, x.Trend.Say(x))
	if !x.Trend.Known() {
		return
	}
	checkWords(t, x.Trend.DateSay(x))
	if f := x.Trend.Forecast; !(0 <= f.Q10 && f.Q10 <= f.Q50 && f.Q50 <= f.Q90 && f.P7 <= f.P14 && f.P14 <= f.P28) {
		t.Errorf("got %+v", f)
	}
	for _, p := range x.Trend.Fan(x.Now, 14) {
		if !(p.Low <= p.Mid && p.Mid <= p.High) {
			t.Errorf("got %+v", p)
		}
	}
}

// Those books would prove nothing if they were all of one sort.
func TestAnyBookReachesEveryRule(t *testing.T) {
	want := []string{
		"red-tag", "clock", "too-hot", "low-mark", "clean", "fill", "dose", "heat", "degas", "baseline", "baseline-cooled",
		"limit", "cool", "doubt", "read-again", "reading", "filter", "mark", "again", "cartridge-1", "cartridge-2",
		"duty-eyewash", "duty-foil", "duty-inspection",
		"dip", "calibrate", "buffers", "top-up", "drain", "decide-again", "limit-date", "changed",
		"order-soap", "order-buffers", "order-cartridges", "drain-limits", "permission-liquid-sewer", "permission-sludge-hauler",
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
