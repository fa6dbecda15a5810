package advise

import (
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/chem"
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
	case site.MostTopups == nil || !x.deciding() || x.dosedSince(x.PH.Last.Entry): // that soap may do yet
	case *site.MostTopups == 0:
		return old("the station tops no fill up")
	case x.Life.Topups() >= *site.MostTopups:
		return old(fmt.Sprintf("it was topped up %s, and the station does so %s at most", times(x.Life.Topups()), times(*site.MostTopups)))
	}
	return nil
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
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
		if ph, _, _ := x.PH.AtFirst(*x.PH.Last); least+0.01-float64(ph) > RiseAsked { // one reading alone would be doubted
			f.flips = []string{fmt.Sprintf("two readings alike of %.2f or more, and this one crossed out", least+0.01)}
		}
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
