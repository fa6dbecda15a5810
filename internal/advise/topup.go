package advise

import (
	"fmt"
	"math"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// TopUp is what a dose of the same soap would do, and what it would cost.
type TopUp struct {
	DoseL    units.Volume
	PH       chem.Range[units.PH] // likely, at the temperature of the first reading
	Reaches  chem.Chance          // whether so much brings it back to the first reading
	GainDays *float64             // days until it is down there again; nil where that is not known
	Hours    float64              // of work
	Cost     *float64             // nil where prices are not filled in
	PerDay   *float64             // Cost over GainDays
}

// Refill is what a drain, a cleaning and a new fill cost and bring.
type Refill struct {
	SoapL    units.Volume
	GainDays *float64
	Hours    float64
	Cost     *float64
	PerDay   *float64
}

// Work where the station has not said, in hours. From memory.
const (
	topUpHours  = 0.5
	refillHours = 2.5
)

// startingDose is where the slider stands: half the first dose (common
// practice, no source), less where less is likely enough, and no more than the
// label allows.
func (x *Snapshot) startingDose() units.Volume {
	half := x.Life.FirstDose() / 2
	if x.Soap != nil && x.Soap.Reaches != chem.Not && x.Soap.Litres.Mid > 0 {
		half = min(half, x.Soap.Litres.Mid)
	}
	return max(0, min(half, x.room()))
}

// Room is how much more soap the label allows, down to nothing.
func (x *Snapshot) Room() units.Volume { return max(0, x.room()) }

// room is how much more soap the label allows: all that one likes where the
// tank does not say.
func (x *Snapshot) room() units.Volume {
	most := x.strongest()
	if most <= 0 {
		return units.Volume(math.Inf(1))
	}
	return most - x.Life.Strength()
}

// TopUp is what so much soap would do. It is nil where that is not known.
func (x *Snapshot) TopUp(dose units.Volume) *TopUp { return x.topUp(dose) }

func (x *Snapshot) topUp(dose units.Volume) *TopUp {
	if x.Soap == nil || dose <= 0 {
		return nil
	}
	after, err := x.Soap.After(dose)
	if err != nil {
		return nil
	}
	t := &TopUp{DoseL: dose, PH: after, Hours: hours(x.State.Site.TopupTime, topUpHours)}
	switch {
	case after.Low >= x.Soap.Target:
		t.Reaches = chem.Surely
	case after.High >= x.Soap.Target:
		t.Reaches = chem.Perhaps
	}
	t.GainDays = x.gain(float64(after.Mid - x.Soap.now.PH))
	t.Cost = x.soapCost(dose, t.Hours)
	t.PerDay = perDay(t.Cost, t.GainDays)
	return t
}

func (x *Snapshot) refill() Refill {
	r := Refill{SoapL: x.Life.Charge(x.State, x.Bath.Tank), Hours: hours(x.State.Site.RefillTime, refillHours)}
	r.GainDays = x.gain(x.PH.Limit)
	if r.Cost = x.soapCost(r.SoapL, r.Hours); r.Cost != nil && x.State.Site.RefillPrice != nil {
		*r.Cost += *x.State.Site.RefillPrice
	}
	r.PerDay = perDay(r.Cost, r.GainDays)
	return r
}

func hours(said units.Span, otherwise float64) float64 {
	if said > 0 {
		return said.Duration().Hours()
	}
	return otherwise
}

// leastFall is the fall in pH a day below which days cannot be told from it.
const leastFall = 0.001

// gain is how many days a rise lasts at the pace of late.
func (x *Snapshot) gain(rise float64) *float64 {
	if !x.Trend.Known() || rise <= 0 {
		return nil
	}
	fall := x.Trend.PerDay()
	if fall < leastFall {
		return nil
	}
	return new(rise / fall)
}

// soapCost is the money for soap and work; nil where the station gave no price
// for either.
func (x *Snapshot) soapCost(dose units.Volume, hours float64) *float64 {
	site, size := x.State.Site, x.Bath.Tank.ContainerL
	if site.SoapPrice == nil || site.HourPrice == nil || size <= 0 {
		return nil
	}
	return new(float64(dose/size)**site.SoapPrice + hours**site.HourPrice)
}

func perDay(cost, days *float64) *float64 {
	if cost == nil || days == nil || *days <= 0 {
		return nil
	}
	return new(*cost / *days)
}

// DaysSay is a number of days as the crew says it: "about 12 days", "about 3
// weeks".
func DaysSay(days float64) string {
	switch n := int(days + 0.5); {
	case n < 1:
		return "less than a day"
	case n == 1:
		return "about a day"
	case n < 21:
		return fmt.Sprintf("about %d days", n)
	default:
		return fmt.Sprintf("about %d weeks", (n+3)/7)
	}
}
