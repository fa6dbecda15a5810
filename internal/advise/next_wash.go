package advise

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/bath"
)

// washResult: a wash that is over wants its result; one that was broken off is
// washed again.
func washResult(x *Snapshot) []Action {
	r := x.Bath.Run
	if r == nil || r.Left(x.Now) > 0 && r.Ended == nil {
		return none
	}
	a := Action{ID: "wash-result", Urgency: Now, Due: r.Ends(x.Now), Kind: "wash", Preset: x.resultOf(*r, bath.ResultClean)}
	a.Say = "Gear out; say how the wash came out"
	a.Why = fmt.Sprintf("%s, over since %s; ultrasound off before a hand goes in", runSay(*r), x.Clock(r.Ends(x.Now)))
	if r.Ended != nil {
		a.Preset = x.resultOf(*r, bath.ResultAgain)
		a.Say, a.Why = "Gear out; log the broken wash", fmt.Sprintf("%s, broken off at %s: %s", runSay(*r), x.Clock(*r.Ended), r.Why)
	}
	return one(a)
}

// resultOf fills in the form of a wash with what its start said.
func (x *Snapshot) resultOf(r bath.Run, result string) map[string]string {
	preset := map[string]string{
		"item": itemCounts(r.Items), "soil": r.Soil, "result": result, "start": fmt.Sprint(r.Seq),
		"time": x.Sys.Text(r.Ran(x.Now)), "bath": x.Sys.TempFine(r.BathC),
	}
	if len(r.Tags) > 0 {
		preset["tags"] = r.Tags.String()
	}
	return preset
}

// itemCounts is a load as it is typed: "mask=4, helmet=2".
func itemCounts(loads []bath.Load) string {
	var items []string
	for _, l := range loads {
		items = append(items, fmt.Sprintf("%s=%d", l.Item, l.Count))
	}
	return strings.Join(items, ", ")
}

// runSay is what is in the bath: "Mask × 4".
func runSay(r bath.Run) string {
	var parts []string
	for _, l := range r.Items {
		parts = append(parts, fmt.Sprintf("%s × %d", l.Name, l.Count))
	}
	return strings.Join(parts, ", ")
}

// RunSay is the wash in the bath as the top lines show it: "Mask × 4 in the
// bath, 3:41 left, ends 07:02". It is empty where none is.
func (x *Snapshot) RunSay(now time.Time) string {
	if x.Bath.Run == nil {
		return ""
	}
	what, how, ends := x.RunParts(now)
	return what + InTheBath + how + ends
}

// InTheBath stands between the parts of what RunSay says.
const InTheBath = " in the bath, "

// RunParts is what is in the bath, how far it is, and when it ends, for where
// there is no room for all of it; there must be a wash.
func (x *Snapshot) RunParts(now time.Time) (what, how, ends string) {
	r := *x.Bath.Run
	left := Countdown(r.Left(now)) + " left"
	switch what = runSay(r); {
	case r.Ended != nil:
		return what, "broken off: gear out, log it", ""
	case r.Paused != nil:
		return what, "paused, " + left, ""
	case r.Left(now) == 0:
		return what, "time is up: gear out, say how it came out", ""
	}
	return what, left, ", ends " + x.Clock(r.Ends(now))
}

// Countdown is a time that runs down, in minutes and seconds: "3:41".
func Countdown(d time.Duration) string {
	s := int((d + time.Second - 1) / time.Second)
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// papersMissing: what a gear officer answers for runs out after 30 days.
func papersMissing(x *Snapshot) []Action {
	var out []Action
	for _, p := range x.State.Papers {
		if p.State != bath.PaperPending {
			continue
		}
		due := p.At.In(x.Now.Location()).Add(bath.PaperGrace)
		a := Action{
			ID: "paper-" + p.Item, Urgency: Soon, Due: due, Kind: "procedure", Preset: map[string]string{"item": p.Item, "state": bath.PaperOnFile},
			Say: fmt.Sprintf("Get the maker's paper for %s", p.Item), Why: fmt.Sprintf("%s left, accepted by %s until then", daysLeft(due.Sub(x.Now)), p.Accepted),
		}
		if due.Before(x.Now) {
			a.Urgency, a.Why = Today, "the 30 days are over: no wash of it starts without a gear officer's reason each time"
		}
		out = append(out, a)
	}
	return out
}

// daysLeft counts whole days: "12 days", "1 day", "less than a day".
func daysLeft(d time.Duration) string {
	switch n := int(d.Hours() / 24); n {
	case 0:
		return "less than a day"
	case 1:
		return "1 day"
	default:
		return fmt.Sprintf("%d days", n)
	}
}
