package advise

import (
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/trend"
	"bathside/internal/units"
)

// OnHand is how many containers of soap are on the shelf: what was counted less
// what went into the baths since. It is false where nobody counted.
func (x *Snapshot) OnHand() (containers float64, ok bool) {
	shelf, ok := x.State.Stock[bath.StockSoap]
	size := x.Bath.Tank.ContainerL
	if !ok || size <= 0 {
		return 0, false
	}
	var used units.Volume
	for _, b := range x.State.Baths {
		for _, f := range b.Past {
			if f.From.After(shelf.At) {
				used += f.DoseL
			}
		}
		for _, d := range bath.Of[*bath.Dose](b.Entries) {
			if d.At.After(shelf.At) {
				used += d.Is.VolumeL
			}
		}
	}
	return max(0, shelf.Count+shelf.Added-float64(used/size)), true
}

// leadDays is how long an order takes to come in (from memory).
const leadDays = 14

// orderSoap: a refill needs a whole charge on the shelf when the limit comes.
func orderSoap(x *Snapshot) []Action {
	have, ok := x.OnHand()
	if !ok || !x.Open {
		return none
	}
	charge := x.Life.Charge(x.State, x.Bath.Tank)
	if charge <= 0 {
		return none
	}
	need := float64(charge / x.Bath.Tank.ContainerL)
	if have >= need {
		return none
	}
	a := Action{ID: "order-soap", Urgency: Soon, Kind: "stock", Preset: map[string]string{"what": bath.StockSoap}, Say: "Order soap"}
	if x.Trend.Known() && x.Trend.State == trend.Dated {
		a.Due = x.after(x.Trend.Q10 - leadDays)
		a.Urgency = x.byDate(a.Due, 7*13)
		if a.Due.After(x.Now) && !sameDate(a.Due, x.Now) {
			a.Say += " by " + x.Date(a.Due)
		} else {
			a.Say, a.Urgency = "Order soap now", Soon
		}
	}
	a.From = []string{fmt.Sprintf("counted %s, less the soap logged since; an order is taken to need %d days, from memory", x.Date(x.State.Stock[bath.StockSoap].At), leadDays)}
	a.Why = fmt.Sprintf("%s on hand, and a refill takes %s", x.Bath.Tank.Containers(units.Volume(have)*x.Bath.Tank.ContainerL), x.Bath.Tank.Containers(charge))
	return one(a)
}

// shelves are the other things that are counted, and what they are for.
var shelves = []struct{ what, say, why string }{
	{bath.StockBuffers, "Order buffers", "none are left, and the meter is checked every week"},
	{bath.StockCartridges, "Order filter cartridges", "none are left to change to"},
}

// emptyShelf: what is counted and gone.
func emptyShelf(x *Snapshot) []Action {
	var out []Action
	for _, s := range shelves {
		shelf, ok := x.State.Stock[s.what]
		if left := shelf.Count + shelf.Added - x.usedUp(s.what, shelf); ok && left <= 0 {
			out = append(out, Action{ID: "order-" + s.what, Urgency: Soon, Kind: "stock", Preset: map[string]string{"what": s.what}, Say: s.say, Why: s.why})
		}
	}
	return out
}

// usedUp is how many of a thing the log book says were used since the count:
// cartridges that were changed. Of buffers it says nothing.
func (x *Snapshot) usedUp(what string, shelf bath.Shelf) (n float64) {
	if what != bath.StockCartridges {
		return 0
	}
	for _, b := range x.State.Baths {
		for _, m := range bath.Of[*bath.Media](b.Entries) {
			if m.At.After(shelf.At) {
				n++
			}
		}
	}
	return n
}
