package advise

import (
	"fmt"
	"math"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/renewal"
	"bathside/internal/trend"
)

// contamination: nothing mends a contaminated bath, and nothing of it may go
// down a drain before somebody has said where.
func contamination(x *Snapshot, _ *Decision) *finding {
	if !x.contaminated() {
		return nil
	}
	return &finding{
		Reason{"contaminated", "the bath is tagged as contaminated: drain it, and hold what comes out until a way for it is found", 1},
		bath.ChoiceDrain, nil,
	}
}

// oilLayer: sustained free oil goes back onto the gear.
func oilLayer(x *Snapshot, _ *Decision) *finding {
	oil := ""
	if r := x.PH.Latest; r != nil {
		oil = r.Is.Oil
	}
	switch oil {
	case bath.OilLayer:
		return &finding{Reason{"oil", "oil lies on the bath in a layer and goes back onto the gear", 0.95}, bath.ChoiceDrain, []string{"the oil skimmed off, and none back by the next day"}}
	case bath.OilDrops:
		return &finding{Reason{"oil", "oil drops stand on the bath: skim them, look again tomorrow", 0.4}, "", nil}
	}
	return nil
}

// foilOrTag: a bath that does not work is not mended by soap.
func foilOrTag(x *Snapshot, _ *Decision) *finding {
	t := x.Bath.Tag
	if t == nil || x.contaminated() {
		return nil
	}
	return &finding{Reason{"tag", fmt.Sprintf("a red tag hangs on it, %s: that comes first", t.Why), 0.9}, "", nil}
}

// fillIsOld: what the station set as the most for one fill.
func fillIsOld(x *Snapshot, _ *Decision) *finding {
	site := x.State.Site
	days := x.Life.AgeDays(x.Now)
	washes, _ := x.Life.Washes()
	old := func(say string) *finding { return &finding{Reason{"age", say, 0.85}, bath.ChoiceDrain, nil} }
	switch {
	case site.MostDays != nil && days >= *site.MostDays:
		return old(fmt.Sprintf("the fill is %d days old, and the station keeps one for %g at most", int(days), *site.MostDays))
	case site.MostLoads != nil && washes >= *site.MostLoads:
		return old(fmt.Sprintf("%d washes are through it, and the station keeps one for %d at most", washes, *site.MostLoads))
	case site.MostTopups != nil && x.deciding() && x.Life.Topups() >= *site.MostTopups:
		return old(fmt.Sprintf("it was topped up %d times, and the station does so %d times at most", x.Life.Topups(), *site.MostTopups))
	}
	return nil
}

// pHUnknown: nothing is decided on what is not known.
func pHUnknown(x *Snapshot, _ *Decision) *finding {
	if x.PH.State != PHUnknown {
		return nil
	}
	return &finding{Reason{"unknown", "how far the pH fell is not known: " + x.PH.Why, 0.8}, bath.ChoiceKeep, []string{"a reading that can be compared"}}
}

// oddReading: one reading far out of line decides nothing.
func oddReading(x *Snapshot, _ *Decision) *finding {
	if x.PH.Last == nil || x.PH.Last.Odd == "" {
		return nil
	}
	return &finding{Reason{"odd", x.PH.Last.Odd + ": rinse the probe, read again, then decide", 0.78}, bath.ChoiceKeep, []string{"a second reading within 0.2 of it"}}
}

// soapSince: a reading from before the last soap says nothing of the bath now.
func soapSince(x *Snapshot, _ *Decision) *finding {
	if x.PH.Last == nil || !x.dosedSince(x.PH.Last.Entry) {
		return nil
	}
	return &finding{Reason{"soap-since", "soap went in since the last reading: let it mix, read again, then decide", 0.77}, bath.ChoiceKeep, []string{"a reading since the soap went in"}}
}

// gearNotClean: strength and foil come before draining.
func gearNotClean(x *Snapshot, _ *Decision) *finding {
	for _, a := range washedAgain(x) {
		return &finding{Reason{"not-clean", "washes came out not clean in a warm bath: look at soap strength and foil first", 0.75}, "", []string{a.Say}}
	}
	return nil
}

// meterNotSure: before a decision is signed, two buffers.
func meterNotSure(x *Snapshot, _ *Decision) *finding {
	if !x.deciding() || x.calibratedFor(*x.PH.Last) {
		return nil
	}
	return &finding{Reason{"meter", "the last reading is by a meter that was not calibrated with two buffers this week: calibrate, read again, then sign", 0.72}, "", nil}
}

// pairAgain: like is compared with like on both sides before anything is
// decided: the same cup is read hot and cooled.
func pairAgain(x *Snapshot, _ *Decision) *finding {
	if !x.deciding() || x.PH.Cooled == nil || x.PH.First == nil {
		return nil
	}
	for _, r := range x.PH.Readings {
		cold := Like(r.Is, x.PH.Cooled.Is) && !r.Is.Baseline
		if cold && x.PH.Last.At.Sub(r.At).Abs() < beside {
			return nil
		}
	}
	return &finding{Reason{"pair", "let the same cup cool and read it again, as at the first reading: like with like", 0.35}, "", nil}
}

// calibratedFor reports whether the meter of r was held against two buffers in
// the days before it. A dip since then takes nothing away.
func (x *Snapshot) calibratedFor(r Judged) bool {
	full, ok := lastOf(newMeters(x.State).of(r.Is.Meter), func(c MeterCheck) bool { return c.Is.Full() && c.OK && !c.At.After(r.At) })
	return ok && r.At.Sub(full.At) <= checkStands
}

// dropSays: a bath above its limit is kept.
func dropSays(x *Snapshot, _ *Decision) *finding {
	if x.PH.Drop == nil {
		return nil
	}
	_, first, _ := x.PH.AtFirst(*x.PH.Last)
	least := float64(first.Is.PH) - x.PH.Limit
	f := &finding{reason: Reason{"drop", x.fallSay(), 0.7}}
	if x.deciding() {
		f.flips = []string{fmt.Sprintf("a second reading of %.2f or more", least+0.01)}
		return f
	}
	if x.Trend.Known() {
		f.reason.Say += "; " + x.Trend.Say(x)
	}
	f.choice = bath.ChoiceKeep
	f.flips = []string{fmt.Sprintf("a reading of %.2f or less", least)}
	return f
}

// fallSay is the drop with how sure it is, and the limit.
func (x *Snapshot) fallSay() string {
	d, u := *x.PH.Drop, x.PH.U
	switch {
	case u == 0:
		return fmt.Sprintf("no reading since the first; act at %.2f down", x.PH.Limit)
	case d < 0:
		return fmt.Sprintf("up %s: %s; act at %.2f down", GiveOrTake(-d, u), chem.DropWords(d, u, x.PH.Limit), x.PH.Limit)
	}
	return fmt.Sprintf("down %s; act at %.2f", x.SureSay(), x.PH.Limit)
}

// soapTooStrong: strength, not the sum of doses, judges "too strong".
func soapTooStrong(x *Snapshot, _ *Decision) *finding {
	if !x.deciding() || x.room() > x.Life.FirstDose()/20 {
		return nil
	}
	return &finding{Reason{"strongest", "there is as much soap in it as its label allows: more would not be right", 0.68}, bath.ChoiceDrain, nil}
}

// soapSays: a bath that a whole charge cannot bring back is drained.
func soapSays(x *Snapshot, d *Decision) *finding {
	if !x.deciding() || x.Soap == nil && d.Choice != "" {
		return nil
	}
	if x.Soap == nil {
		return &finding{Reason{"soap", "what more soap would do is not known", 0.6}, "", nil}
	}
	f := &finding{reason: Reason{"soap", "more soap: " + x.Soap.Say, 0.65}}
	if x.Soap.Reaches == chem.Not {
		f.choice = bath.ChoiceDrain
		if !x.Soap.belief.Known() {
			f.flips = []string{"the soap type from its data sheet", "a drop test against one of the fresh bath"}
		}
	}
	if x.Soap.Disagree != "" {
		f.reason.Say += "; " + x.Soap.Disagree
	}
	return f
}

// leastGain is how many days a top-up must last to be worth its work
// (judgement).
const leastGain = 3

// gainSays: a top-up that lasts a day or two is none.
func gainSays(x *Snapshot, d *Decision) *finding {
	if !x.deciding() || d.TopUp == nil || d.TopUp.GainDays == nil {
		return nil
	}
	days := *d.TopUp.GainDays
	f := &finding{reason: Reason{"gain", fmt.Sprintf("%s would gain %s, a refill %s", x.AmountIn(d.TopUp.DoseL), DaysSay(days), gainOf(d.Refill.GainDays)), 0.55}}
	if days < leastGain {
		f.choice = bath.ChoiceDrain
	}
	return f
}

func gainOf(days *float64) string {
	if days == nil {
		return "some number that is not known"
	}
	return DaysSay(*days)
}

// costSays: top up while the next gain is cheaper a day than the long run of
// refills and top-ups (renewal).
func costSays(x *Snapshot, d *Decision) *finding {
	t, r := d.TopUp, d.Refill
	if !x.deciding() || t == nil || t.Cost == nil || r.Cost == nil || t.GainDays == nil || r.GainDays == nil {
		return nil
	}
	costs := renewal.Costs{Refill: *r.Cost, TopUp: *t.Cost}
	longRun, err := costs.LongRun(x.cycles(*r.GainDays, *t.GainDays))
	if err != nil {
		return nil
	}
	pays, err := costs.Pays(*t.GainDays, longRun)
	if err != nil {
		return nil
	}
	f := &finding{reason: Reason{"cost", fmt.Sprintf("topping up costs %.2f a day it gains; fills so far cost %.2f a day", *t.PerDay, longRun), 0.5}}
	if !pays {
		f.choice = bath.ChoiceDrain
	}
	return f
}

// cycles are the fills that are over; while there are none, the open one as it
// would be if it were drained after one more top-up.
func (x *Snapshot) cycles(refill, topUp float64) []renewal.Cycle {
	var out []renewal.Cycle
	for _, f := range x.Bath.Past {
		if f.To.After(f.From) { // an imported fill may lack its drain
			out = append(out, renewal.Cycle{Days: f.To.Sub(f.From).Hours() / 24, TopUps: f.Topups})
		}
	}
	for _, l := range x.Bath.Lives() {
		if l.Drain != nil {
			out = append(out, renewal.Cycle{Days: l.AgeDays(l.Drain.At), TopUps: l.Topups()})
		}
	}
	if len(out) == 0 {
		n := x.Life.Topups()
		out = append(out, renewal.Cycle{Days: refill + float64(n)*topUp, TopUps: n})
	}
	return out
}

// topUpSays: what is left when nothing speaks for draining.
func topUpSays(x *Snapshot, d *Decision) *finding {
	if !x.deciding() || d.TopUp == nil && d.Choice != "" {
		return nil
	}
	if d.TopUp == nil {
		return &finding{Reason{"unsure", "too little is known to advise a top-up: it takes a first dose and a first reading", 0.3}, bath.ChoiceDrain, nil}
	}
	return &finding{
		Reason{"top-up", fmt.Sprintf("with %s it would likely read %.2f to %.2f", x.AmountIn(d.TopUp.DoseL), float64(d.TopUp.PH.Low), float64(d.TopUp.PH.High)), 0.45},
		bath.ChoiceTopUp, nil,
	}
}

// Known reports whether there is a date to speak of.
func (t *Trend) Known() bool { return t != nil && t.State != trend.NoDate }

// Say is the trend in words: "good for at least 3 weeks", "limit likely about 9
// Dec, between 30 Nov and 24 Dec".
func (t *Trend) Say(x *Snapshot) string {
	if t == nil {
		return trend.NoDate.Note()
	}
	if x.deciding() {
		return "at the limit by the last reading"
	}
	if note := t.State.Note(); note != "" {
		return note
	}
	if t.Q10 >= 7 {
		return "good for at least " + weeks(t.Q10)
	}
	return "limit " + t.DateSay(x)
}

// DateSay is when the limit is likely: "about 9 Dec, between 30 Nov and 24 Dec".
func (t *Trend) DateSay(x *Snapshot) string {
	at := func(days float64) time.Time { return x.Now.Add(time.Duration(days * 24 * float64(time.Hour))) }
	late := "later than " + x.Date(at(trend.Horizon))
	if t.Q90 < trend.Horizon {
		late = x.Date(at(t.Q90))
	}
	return fmt.Sprintf("likely about %s, between %s and %s", x.Date(at(t.Q50)), x.Date(at(t.Q10)), late)
}

func weeks(days float64) string {
	n := int(math.Floor(days / 7))
	if n == 1 {
		return "a week"
	}
	return fmt.Sprintf("%d weeks", n)
}
