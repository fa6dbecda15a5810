package advise

import (
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/renewal"
)

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
