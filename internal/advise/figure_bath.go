package advise

import (
	"fmt"

	"bathside/internal/bath"
)

func tempFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "temp", Name: "Temperature", Value: notKnown + ": not measured in this fill; press t", Also: "how warm hot",
		How: "as somebody measured it in the bath, not the dial; older than 15 min it is asked for again before a wash starts",
	}
	if x.Temp != nil {
		f.Value = fmt.Sprintf("%s, measured %s; set point %s", x.Sys.Temp(x.Temp.C), x.Clock(x.Temp.At), x.Sys.Temp(x.Set()))
	}
	return f
}

func readyFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "ready", Name: "Warm again", Value: "it is, or its heater is off", Also: "ready heat up warm-up",
		How:    "heater power less the loss through walls, surface and lid, from the last measured temperature to the set point",
		Source: "heat balance of the tank; power and loss are learned from warm-ups and cool-downs in the log book, and begin with the plate",
	}
	if !x.Open {
		f.Value = notKnown + ": no fill is open"
		return f
	}
	at, ok := x.ReadyAt()
	switch {
	case ok:
		f.Value = "about " + x.Clock(at)
	case !x.warm() && !x.heaterOff():
		f.Value = notKnown + ": the heater's power is not set, or it never gets there"
	}
	from, since, known := x.heatUp()
	f.From = []string{fmt.Sprintf("from %s at %s", x.Sys.Temp(from), x.Clock(since))}
	if !known {
		f.From[0] += ", taken for the water that ran in: nobody measured it"
	}
	return f
}

func levelFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "level", Name: "Level", Value: notKnown, Also: "mark water evaporation",
		How: "as last seen at the mark; since then an estimate: water lost to the room by the lid and the routine, and what went out on the gear",
	}
	if !x.Level.Known {
		return f
	}
	f.Value = fmt.Sprintf("%s of %s, seen %s", x.Sys.Volume(x.Level.VolumeL), x.Sys.Volume(x.Bath.Tank.VolumeL), x.Date(x.Level.At))
	if x.About != nil {
		f.Value += "; now about " + x.Sys.Volume(x.About.VolumeL)
		f.Unsure = "give or take " + x.Sys.Volume(x.About.U) + ": look at the mark, with the baskets out"
		f.Source = "evaporation from a warm surface, learned from the water that was added"
	}
	for _, w := range bath.Of[*bath.Water](x.Life.Entries) {
		f.From = append(f.From, x.line(w.Entry))
	}
	f.From = f.From[max(0, len(f.From)-4):]
	return f
}

func strengthFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "strength", Name: "Soap in the bath", Value: notKnown + ": no soap is logged in this fill", Also: "strength dose ratio strong",
		How: "what went in, less what left with spills and with water that was replaced; strength, not the sum of doses, judges too strong",
	}
	if !x.Open {
		return f
	}
	s := x.Life.Strength()
	if s <= 0 {
		return f
	}
	f.Value = x.Sys.Volume(s)
	if first := x.Life.FirstDose(); first > 0 {
		f.Value += fmt.Sprintf(", %.0f%% of a first dose", 100*float64(s/first))
	}
	for _, d := range bath.Of[*bath.Dose](x.Life.Entries) {
		f.From = append(f.From, x.line(d.Entry))
	}
	return f
}

func topUpFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "top-up", Name: "More soap would do", Value: "reckoned once the bath is getting close", Also: "top up outlook dose",
		How:    "the charge balance of the bath as it is, with so much more of the same soap in it, over every soap type and strength that fits what was seen",
		Source: "common builders in water; what your top-ups did weighs most",
	}
	if x.Soap == nil {
		return f
	}
	f.Value = x.Soap.Say
	f.From = []string{fmt.Sprintf("learned from %d top-ups, drop tests and pairs", x.Soap.Learned)}
	return f
}

func refillFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "refill", Name: "A refill", Value: "no fill is open", Also: "drain cost money work gain days",
		How: "soap for the volume at the ratio; days by the fills before this one; work and money as the station set them",
	}
	if !x.Open {
		return f
	}
	r := x.refill()
	f.Value = fmt.Sprintf("soap %s; %.1f h of work", x.Amount(r.SoapL), r.Hours)
	if r.GainDays != nil {
		f.Value += ", gains " + DaysSay(*r.GainDays)
	}
	if r.Cost != nil {
		f.Value += fmt.Sprintf(", %.2f in money", *r.Cost)
	}
	if x.State.Site.RefillTime == 0 {
		f.Unsure = fmt.Sprintf("%.1f h is the usual figure, from memory: set the station's own", refillHours)
	}
	return f
}

func shelfFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "shelf", Name: "Soap on the shelf", Value: notKnown + ": count it (log stock)", Also: "jugs stock order supply",
		How: "as last counted, less the soap that was logged since",
	}
	if n, ok := x.OnHand(); ok {
		f.Value = fmt.Sprintf("about %.1f containers", n)
		f.From = []string{"counted " + x.Date(x.State.Stock[bath.StockSoap].At)}
	}
	return f
}
