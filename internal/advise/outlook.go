package advise

import (
	"errors"
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// Outlook is what more soap would do to the bath: by its pH, and by its drop
// tests where there are any.
type Outlook struct {
	chem.Plan
	Say     string // in the station's units
	Learned int    // top-ups, drop tests and pairs that it has learned from

	// Recharge is what the last drop test asks for, and Disagree what it may mean
	// that the pH of the same days asks for another amount; nil and "" without
	// drop tests.
	Recharge *units.Volume
	Disagree string

	belief chem.Belief
	now    chem.Bath
}

// ErrNoOutlook says that nothing can be said of more soap: there is nothing to
// compare, or nothing may be put in.
var ErrNoOutlook = errors.New("what more soap would do is not known: it takes a first reading, a first dose and a reading since the last soap that can be compared")

// Outlook reckons what more soap would do. A contaminated bath has none: it is
// drained, not mended.
func (x *Snapshot) Outlook() (Outlook, error) {
	dose := x.Life.FirstDose()
	if !x.Open || x.PH.Drop == nil || dose <= 0 || x.contaminated() || x.dosedSince(x.PH.Last.Entry) {
		return Outlook{}, ErrNoOutlook
	}
	_, first, _ := x.PH.AtFirst(*x.PH.Last) // all at one temperature, that of the first reading
	o, err := x.learned(first.Rec)
	if err != nil {
		return Outlook{}, err
	}
	ph, _, _ := x.PH.AtFirst(*x.PH.Last)
	o.now = x.chemBath(sampleOf(ph, first.Is.SampleC), float64(x.Life.Strength()/dose))
	o.now.U = x.PH.Last.EquivalentU()
	if o.Plan, err = o.belief.Plan(o.now, first.Is.PH); err != nil {
		return Outlook{}, err
	}
	o.Say = o.Plan.Say(x.Sys)
	o.byDrops(x)
	return o, nil
}

// After is the pH that the bath would likely read with so much more soap.
func (o Outlook) After(add units.Volume) (chem.Range[units.PH], error) {
	return o.belief.Effect(o.now, add)
}

// At is the temperature that all of it is for: that of the first reading.
func (o Outlook) At() units.Temperature { return o.now.At }

// chemBath is the open fill as chem takes it. How strong the product is follows
// from the first dose that went in.
func (x *Snapshot) chemBath(read chem.Sample, charged float64) chem.Bath {
	return bathOf(read, x.Life.Fill.Is.VolumeL, x.Life.FirstDose(), charged)
}

func bathOf(read chem.Sample, volume, first units.Volume, charged float64) chem.Bath {
	return chem.Bath{Sample: read, Volume: volume, Ratio: float64(volume/first) - 1, Charged: charged}
}

// mostLearned is how many top-ups are learned from, the last ones: more tell
// little, and each takes time.
const mostLearned = 12

// learned is what is believed of the soap, from every fill of this product and
// from the open one.
func (x *Snapshot) learned(first bath.Rec[*bath.Reading]) (o Outlook, err error) {
	o.belief, err = chem.NewBelief(family(x.Bath.Tank), sampleOf(first.Is.PH, first.Is.SampleC))
	if err != nil {
		return o, err
	}
	for _, p := range x.past() {
		if b, err := p.teach(o.belief); err == nil {
			o.belief, o.Learned = b, o.Learned+1
		}
	}
	if b, err := o.belief.Carry(sampleOf(first.Is.PH, first.Is.SampleC)); err == nil {
		o.belief = b
	}
	if hot, cool := x.PH.First, x.PH.Cooled; hot != nil && cool != nil && hot.Doubt == (Doubt{}) && cool.Doubt == (Doubt{}) {
		o.learn(o.belief.LearnPair(hot.sample(), cool.sample()))
	}
	for _, t := range bath.Of[*bath.Titration](x.Life.Entries) {
		o.learn(x.dropTest(o.belief, t))
	}
	return o, nil
}

func (o *Outlook) learn(b chem.Belief, err error) {
	if err == nil {
		o.belief, o.Learned = b, o.Learned+1
	}
}

// poured is a top-up of some fill, with what is needed to learn from it.
type poured struct {
	bath.Poured
	first         chem.Sample // the fill's first reading
	volume, doseL units.Volume
}

func (p poured) teach(b chem.Belief) (chem.Belief, error) {
	b, err := b.Carry(p.first)
	if err != nil {
		return b, err
	}
	before := bathOf(sampleOf(p.Before.PH, p.Before.SampleC), p.volume, p.doseL, p.Charged)
	return b.Learn(chem.Topup{Before: before, Added: p.AddedL, After: sampleOf(p.After.PH, p.After.SampleC)})
}

// past lists the top-ups of this product, the last of them.
func (x *Snapshot) past() []poured {
	var out []poured
	m := newMeters(x.State)
	for _, s := range x.Bath.Past {
		if s.Product != x.Bath.Tank.Product || s.First == nil || s.FirstL <= 0 {
			continue
		}
		for _, p := range s.Poured {
			if failed(m, p.Before) || failed(m, p.After) {
				continue
			}
			out = append(out, poured{p, sampleOf(s.First.PH, s.First.SampleC), s.VolumeL, s.FirstL})
		}
	}
	for _, l := range x.Bath.Lives() {
		first, ok := l.Baseline(false)
		if !ok || l.Product(x.Bath.Tank.Product) != x.Bath.Tank.Product {
			continue
		}
		judged := judge(x.State, x.Bath, l, x.Now).Judgement
		for _, p := range l.Poured() {
			if !judged.doubts(p) {
				out = append(out, poured{p, sampleOf(first.Is.PH, first.Is.SampleC), l.Fill.Is.VolumeL, l.FirstDose()})
			}
		}
	}
	return out[max(0, len(out)-mostLearned):]
}

// failed reports whether a reading was taken by a meter that had failed.
func failed(m meters, r bath.Read) bool {
	s, _ := m.standing(r.Meter, r.At)
	return s.Trust == chem.Failed
}

// doubts reports whether a reading beside a top-up is not trusted.
func (j Judgement) doubts(p bath.Poured) bool {
	return slices.ContainsFunc(j.Readings, func(r Judged) bool {
		return r.Doubt != (Doubt{}) && (r.Seq == p.Before.Seq || r.Seq == p.After.Seq)
	})
}

// beside is how far from a drop test a reading of the same bath may be.
const beside = 2 * 24 * time.Hour

// dosedSince reports whether soap went in after e: what was found before it
// tells nothing of the bath as it is now.
func (x *Snapshot) dosedSince(e bath.Entry) bool {
	return slices.ContainsFunc(bath.Of[*bath.Dose](x.Life.Entries), func(d bath.Rec[*bath.Dose]) bool { return e.Before(d.Entry) })
}

// dropTest learns from a drop test with the trusted reading nearest to it and
// no soap between.
func (x *Snapshot) dropTest(b chem.Belief, t bath.Rec[*bath.Titration]) (chem.Belief, error) {
	found, err := t.Is.Alkalinity()
	if err != nil {
		return b, err
	}
	var near *Judged
	for i := range x.PH.Readings {
		r := &x.PH.Readings[i]
		if r.Doubt != (Doubt{}) || dosedBetween(x.Life, r.Entry, t.Entry) || dosedBetween(x.Life, t.Entry, r.Entry) {
			continue
		}
		if near == nil || r.At.Sub(t.At).Abs() < near.At.Sub(t.At).Abs() {
			near = r
		}
	}
	if near == nil || near.At.Sub(t.At).Abs() > beside {
		return b, ErrNoOutlook
	}
	return b.LearnTitration(x.chemBath(near.sample(), x.chargedAt(t.Entry)), found)
}

// chargedAt is the soap that was in the bath at e, over the first dose.
func (x *Snapshot) chargedAt(e bath.Entry) float64 {
	so := x.Life
	so.Entries = slices.DeleteFunc(slices.Clone(so.Entries), func(other bath.Entry) bool { return e.Before(other) })
	return float64(so.Strength() / x.Life.FirstDose())
}

// freshFor is how long after the fill a drop test still is of the fresh bath
// (judgement).
const freshFor = 3 * 24 * time.Hour

// byDrops is what the drop tests of this fill ask for: the last against the
// first, which was of the fresh bath. Once soap went in it asks for nothing.
func (o *Outlook) byDrops(x *Snapshot) {
	tests := bath.Of[*bath.Titration](x.Life.Entries)
	if len(tests) < 2 || tests[0].At.Sub(x.Life.Fill.At) > freshFor || x.dosedSince(tests[len(tests)-1].Entry) {
		return
	}
	fresh, err1 := tests[0].Is.Alkalinity()
	now, err2 := tests[len(tests)-1].Is.Alkalinity()
	if err1 != nil || err2 != nil {
		return
	}
	add, err := chem.Recharge(o.Charge, now.P, fresh.P)
	if err != nil {
		return
	}
	o.Recharge = &add
	if tests[len(tests)-1].At.Sub(x.PH.Last.At).Abs() <= beside {
		o.Disagree = chem.Disagree(o.Litres.Mid, add, o.Charge)
	}
}

func sampleOf(ph units.PH, at units.Temperature) chem.Sample { return chem.Sample{PH: ph, At: at} }
