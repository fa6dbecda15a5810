package advise

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"bathside/internal/bath"
)

// filterDue: once on a day that gear was washed; not after every load, and
// not on idle days (common practice, no source).
func filterDue(x *Snapshot) []Action {
	washes := bath.Of[*bath.Wash](x.Life.Entries)
	if !x.Open || len(washes) == 0 {
		return none
	}
	washed := washes[len(washes)-1].At
	start, end := x.day(washed)
	first := washes[slices.IndexFunc(washes, func(w bath.Rec[*bath.Wash]) bool { return !w.At.Before(start) })].At
	for _, f := range bath.Of[*bath.Filter](x.Life.Entries) {
		if !f.At.Before(first) && !toCome(f.At, x.Now) { // a run before the first load was for another day
			return none
		}
	}
	a := Action{
		ID: "filter", Urgency: Today, Due: end, Kind: "filter",
		Say: "Filter " + x.Sys.Text(x.State.Site.FilterRun()),
		Why: "washed " + x.Date(washed) + "; once, after the last load",
	}
	if !x.Now.Before(end) {
		a.Due, a.Why = time.Time{}, "washed "+x.Date(washed)+", no run since"
	}
	return one(a)
}

// markEvery is how long the mark may go unseen (from memory).
const markEvery = 3 // days

// checkMark: the level counts only when somebody has looked.
func checkMark(x *Snapshot) []Action {
	if !x.Open || !x.inService() || len(heaterDry(x)) > 0 {
		return none
	}
	due := x.Level.At.In(x.Now.Location()).AddDate(0, 0, markEvery)
	if toCome(x.Level.At, x.Now) {
		return one(Action{ID: "mark", Urgency: Today, Kind: "water", Say: "Check the mark, baskets out", Why: x.toComeSay(x.Level.At)})
	}
	a := Action{ID: "mark", Urgency: Today, Due: due, Kind: "water", Say: "Check the mark, baskets out", Why: "last seen " + x.Date(x.Level.At)}
	low := x.Bath.Tank.VolumeL
	if x.About != nil {
		low -= x.About.VolumeL
		if low > x.About.U && low > x.Bath.Tank.VolumeL/100 {
			a.Why = fmt.Sprintf("about %s low by now; %s", x.Sys.Volume(low), a.Why)
			a.From = []string{
				fmt.Sprintf("from the last look on, by evaporation at %s with the lid as it was used so far, as learned from the water added; give or take %s", x.Sys.Temp(x.Set()), x.Sys.Volume(x.About.U)),
				"the mark itself counts, not this",
			}
		}
		if x.About.Low != nil && !x.Now.Before(x.About.Low.Soonest) {
			a.Say = "Check the mark: the heater's low mark may be near"
			return one(a)
		}
	}
	if x.Now.Before(due) {
		return none
	}
	return one(a)
}

// washedAgain: three of the last five washes not clean, in a warm bath, point
// at the bath and not at the gear. A foil check made since then settles it.
func washedAgain(x *Snapshot) []Action {
	washes := bath.Of[*bath.Wash](x.Life.Entries)
	if len(washes) < 5 || !x.Open {
		return none
	}
	washes = washes[len(washes)-5:]
	if x.State.Duties[bath.DutyFoil].After(washes[4].At) {
		return none
	}
	again := 0
	for _, w := range washes {
		if w.Is.Result == bath.ResultAgain && w.Is.BathC >= x.Set()-nearSet {
			again++
		}
	}
	if again < 3 {
		return none
	}
	return one(Action{
		ID: "again", Urgency: Today, Kind: "duty", Preset: map[string]string{"what": bath.DutyFoil},
		Say: "Check soap strength and foil",
		Why: fmt.Sprintf("before anything else: %d of the last 5 washes came out not clean, with the bath warm", again),
	})
}

// cartridges: changed by filter hours.
func cartridges(x *Snapshot) []Action {
	var out []Action
	life := x.State.Site.CartridgeLife()
	for i, ran := range x.Bath.FilterS {
		if ran < life*9/10 {
			continue
		}
		a := Action{
			ID: fmt.Sprintf("cartridge-%d", i+1), Urgency: Soon, Kind: "media", Preset: map[string]string{"stage": strconv.Itoa(i + 1)},
			Say: fmt.Sprintf("Change filter cartridge %d", i+1),
			Why: fmt.Sprintf("%d of %d filter hours; the old one may be regulated waste", int(ran.Duration().Hours()), int(life.Duration().Hours())),
		}
		if ran >= life {
			a.Urgency = Today
		}
		out = append(out, a)
	}
	return out
}

// dutyEvery is how often a duty comes round (rulings of the trade: eyewash
// weekly, foil check and tank inspection quarterly).
var dutyEvery = []struct {
	what string
	days int
	say  string
}{
	{bath.DutyEyewash, 7, "Run the eyewash"},
	{bath.DutyFoil, 91, "Do the foil check"},
	{bath.DutyInspection, 91, "Inspect the tank and lid"},
}

// duties: what the station does on a schedule.
func duties(x *Snapshot) []Action {
	if len(x.Bath.Entries) == 0 { // nothing has ever stood in it
		return none
	}
	var out []Action
	for _, d := range dutyEvery {
		a := Action{ID: "duty-" + d.what, Kind: "duty", Preset: map[string]string{"what": d.what}, Say: d.say, Urgency: Today, Why: "none logged yet"}
		if done, ok := x.State.Duties[d.what]; ok {
			a.Due = done.In(x.Now.Location()).AddDate(0, 0, d.days)
			a.Why = fmt.Sprintf("%s, last %s", x.dueSay(a.Due), x.Date(done))
			a.Urgency = x.byDate(a.Due, d.days)
			if toCome(done, x.Now) {
				a.Due, a.Why, a.Urgency = time.Time{}, x.toComeSay(done), Today
			}
		}
		out = append(out, a)
	}
	return out
}

// byDate is how urgent something is that comes round every so many days.
func (x *Snapshot) byDate(due time.Time, every int) Urgency {
	start, _ := x.day(due)
	switch {
	case !x.Now.Before(start):
		return Today
	case !x.Now.Before(start.AddDate(0, 0, -max(1, every/13))):
		return Soon
	}
	return Later
}
