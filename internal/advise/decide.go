package advise

import (
	"errors"
	"slices"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Decision is what should be done about the bath, and why: advice to the gear
// officer, who decides.
type Decision struct {
	Choice  string   // bath.ChoiceKeep, bath.ChoiceTopUp or bath.ChoiceDrain
	Reasons []Reason // the weightiest first
	Flips   []string // what would change the answer
	TopUp   *TopUp   // nil where none is to be shown: a contaminated bath, or too little known
	Refill  Refill
}

// Reason is one thing that speaks for or against a choice.
type Reason struct {
	ID     string // stable: "drop", "soap"
	Say    string
	Weight float64 // from 0 to 1
}

// ErrNothingToDecide says that there is no bath to decide about.
var ErrNothingToDecide = errors.New("no fill is open in this bath, so there is nothing to decide: fill it first")

// finding is what one piece of evidence says. The first one that settles the
// choice decides.
type finding struct {
	reason Reason
	choice string // "" where it settles nothing
	flips  []string
}

// evidence is one function and one test each, in the order in which it counts.
var evidence = []func(*Snapshot, *Decision) *finding{
	contamination, oilLayer, foilOrTag, fillIsOld, pHUnknown, oddReading, soapSince, gearNotClean, meterNotSure, pairAgain, dropSays, soapTooStrong, soapSays, gainSays, costSays, topUpSays, disposal,
}

// Decide weighs top-up, drain and keep.
func (x *Snapshot) Decide() (Decision, error) {
	if !x.Open {
		return Decision{}, ErrNothingToDecide
	}
	d := Decision{Refill: x.refill()}
	if !x.contaminated() {
		d.TopUp = x.topUp(x.startingDose())
	}
	for _, look := range evidence {
		f := look(x, &d)
		if f == nil {
			continue
		}
		d.Reasons = append(d.Reasons, f.reason)
		if d.Choice == "" {
			d.Choice, d.Flips = f.choice, append(d.Flips, f.flips...)
		}
	}
	slices.SortStableFunc(d.Reasons, func(a, b Reason) int {
		switch {
		case a.Weight > b.Weight:
			return -1
		case a.Weight < b.Weight:
			return 1
		}
		return 0
	})
	return d, nil
}

// Sign puts into a decision what it rests on: the advice and the evidence of
// this moment. The dose is the advised one where none was given.
func (x *Snapshot) Sign(b *bath.Decision) error {
	d, err := x.Decide()
	if err != nil {
		return err
	}
	if b.Choice == bath.ChoiceTopUp && b.DoseL == nil && d.TopUp != nil {
		b.DoseL = &d.TopUp.DoseL
	}
	b.Advice, b.Evidence = d.Choice, x.evidenceOf(d)
	return nil
}

func (x *Snapshot) evidenceOf(d Decision) *bath.Evidence {
	e := &bath.Evidence{Rests: x.PH.rests(), State: string(x.PH.State), Limit: x.PH.Limit, Drop: x.PH.Drop, Flips: d.Flips}
	if x.PH.Drop != nil {
		e.UDrop = new(x.PH.U)
	}
	for _, r := range d.Reasons {
		e.Reasons = append(e.Reasons, r.Say)
	}
	if d.TopUp != nil {
		e.AdviseL, e.GainDays = d.TopUp.DoseL, d.TopUp.GainDays
	}
	if x.Trend.Known() {
		e.DueDays = new(x.Trend.Q50)
	}
	return e
}

// rests are the lines that the drop follows from: the first reading, the last,
// and the cooled pair where the last is held against that. What a failed meter
// read is none of them.
func (j Judgement) rests() (lines []uint64) {
	add := func(line uint64) {
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	if j.First != nil && j.First.Doubt == (Doubt{}) {
		add(j.First.Seq)
	}
	if j.Last == nil {
		return lines
	}
	if j.Last.Against != nil {
		add(j.Last.Against.Seq)
	}
	add(j.Last.Seq)
	return lines
}

// Decided is the last decision that was signed in this fill, with whether what
// it rests on was crossed out since.
func (x *Snapshot) Decided() (d bath.Rec[*bath.Decision], shaken, ok bool) {
	all := bath.Of[*bath.Decision](x.Life.Entries)
	if len(all) == 0 {
		return d, false, false
	}
	d = all[len(all)-1]
	if d.Is.Evidence != nil {
		for _, seq := range d.Is.Evidence.Rests {
			_, struck := x.State.Struck[seq]
			shaken = shaken || struck
		}
	}
	return d, shaken, true
}

// strongest is the most soap that the label allows in this fill; 0 where the
// tank does not say.
func (x *Snapshot) strongest() units.Volume {
	return bath.Charge(x.Life.Fill.Is.VolumeL, x.Bath.Tank.Strongest, x.State.Site.InWater())
}
