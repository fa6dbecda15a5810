package report

import (
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// local is t in the station's zone, as every time in Status is.
func local(x *advise.Snapshot, t time.Time) time.Time { return t.In(x.Now.Location()) }

func tagStatus(x *advise.Snapshot) *TagStatus {
	t := x.Bath.Tag
	if t == nil {
		return nil
	}
	return &TagStatus{Seq: t.Seq, At: local(x, t.At), By: t.By, Kind: t.Kind, Why: t.Why}
}

func fillStatus(x *advise.Snapshot) *FillStatus {
	if !x.Open {
		return nil
	}
	l := x.Life
	f := &FillStatus{
		Number:  l.Number,
		At:      local(x, l.Fill.At),
		AgeDays: l.AgeDays(x.Now),
		VolumeL: l.Fill.Is.VolumeL,
		DoseL:   l.DoseL(),
		Topups:  l.Topups(),
		MakeupL: l.MakeupL(),
		FilterH: l.FilterTime().Duration().Hours(),
	}
	f.Loads, f.Items = l.Washes()
	if x.Level.Known {
		f.LevelL = new(float64(x.Level.VolumeL))
		f.LevelAt = new(local(x, x.Level.At))
	}
	if frac, ok := strength(x); ok {
		f.StrengthFrac = &frac
	}
	return f
}

// strength is the soap still in the bath as a fraction of a full first dose,
// by mass balance; false where no ratio is set to say what a full one is.
func strength(x *advise.Snapshot) (frac float64, ok bool) {
	full := x.Life.Charge(x.State, x.Bath.Tank)
	if full <= 0 {
		return 0, false
	}
	return float64(x.Life.Strength() / full), true
}

func tempStatus(x *advise.Snapshot) TempStatus {
	t := TempStatus{SetC: x.Set()}
	if x.Temp != nil {
		t.BathC, t.At = new(x.Temp.C), new(local(x, x.Temp.At))
	}
	if at, ok := x.ReadyAt(); ok {
		t.ReadyAt = new(local(x, at))
	}
	return t
}

func phStatus(x *advise.Snapshot) PHStatus {
	j := x.PH
	s := PHStatus{Drop: j.Drop, Limit: j.Limit, State: j.State, Why: j.Why}
	if j.Last != nil {
		s.Last, s.SampleC, s.At = new(j.Last.Is.PH), new(j.Last.Is.SampleC), new(local(x, j.Last.At))
	}
	if j.Drop != nil {
		ph, _, _ := j.AtFirst(*j.Last)
		s.Equivalent, s.U, s.UDrop = &ph, new(j.Last.EquivalentU()), new(j.U)
		s.Sure = x.SureSay()
	}
	if b := baseline(j); b != nil {
		s.Baseline, s.BaselineC = new(b.Is.PH), new(b.Is.SampleC)
	}
	for _, d := range j.Doubtful() {
		s.Doubtful = append(s.Doubtful, DoubtStatus{d.Seq, d.Is.PH, d.Is.SampleC, local(x, d.At), d.Doubt.Why})
	}
	return s
}

// baseline is the first reading, the hot one before the cooled one.
func baseline(j advise.Judgement) *bath.Rec[*bath.Reading] {
	switch {
	case j.First != nil:
		return &j.First.Rec
	case j.Cooled != nil:
		return &j.Cooled.Rec
	}
	return nil
}

func nextStatus(x *advise.Snapshot) []ActionStatus {
	next := make([]ActionStatus, 0, len(x.Next)) // [] in JSON, never null
	for _, a := range x.Next {
		s := ActionStatus{ID: a.ID, Urgency: a.Urgency.String(), Say: a.Say, Why: a.Why}
		if !a.Due.IsZero() {
			s.Due = new(local(x, a.Due))
		}
		next = append(next, s)
	}
	return next
}

func dutyStatus(x *advise.Snapshot) DutyStatus {
	return DutyStatus{Platoon: x.Shift.Platoon, Names: onDuty(x), Until: x.Shift.End}
}

func onDuty(x *advise.Snapshot) []string {
	names := make([]string, 0, len(x.OnDuty))
	for _, m := range x.OnDuty {
		names = append(names, m.Name)
	}
	return names
}

func bathsStatus(x *advise.Snapshot) []BathStatus {
	baths := make([]BathStatus, 0, len(x.State.Baths))
	for _, y := range everyBath(x) {
		baths = append(baths, BathStatus{
			ID: y.Bath.ID, Name: y.Bath.Tank.Name, Open: y.Open, State: y.PH.State, RedTag: y.Bath.Tag != nil,
		})
	}
	return baths
}

// everyBath looks at each bath of the station at the moment of x.
func everyBath(x *advise.Snapshot) []*advise.Snapshot {
	var all []*advise.Snapshot
	for _, b := range x.State.Baths {
		y := x
		if b != x.Bath {
			var err error
			if y, err = advise.Assess(x.State, b.ID, x.Now); err != nil {
				continue // the state lists b, so it has it
			}
		}
		all = append(all, y)
	}
	return all
}

func soapStatus(x *advise.Snapshot) *SoapStatus {
	o := x.Soap
	if o == nil {
		return nil
	}
	return &SoapStatus{
		Reaches: o.Reaches.String(), LowL: o.Litres.Low, HighL: o.Litres.High, ChargeL: o.Charge,
		FullLow: o.Full.Low, FullHigh: o.Full.High, RechargeL: o.Recharge, Say: o.Say,
	}
}

func forecastStatus(x *advise.Snapshot) *ForecastStatus {
	t := x.Trend
	if t == nil {
		return nil
	}
	s := &ForecastStatus{State: string(t.State), Note: t.Say(x)}
	if atLimit(x) && t.Known() {
		s.Note += "; by all of them together " + t.DateSay(x)
	}
	if t.Known() {
		s.Q10, s.Q50, s.Q90 = &t.Q10, &t.Q50, &t.Q90
		s.P7, s.P14, s.P28 = &t.P7, &t.P14, &t.P28
	}
	return s
}
