package advise

import (
	"fmt"
	"math"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// LoadAsk is a load as it is put together, before anybody starts it.
type LoadAsk struct {
	Batches []load.Batch
	Checked bool // every check of every item was ticked
	Lids    bool // what floats is under a lid
}

// Loading is what a load comes to in the bath as it stands.
type Loading struct {
	Start    bath.Start  // as it would be logged
	Measured bool        // the bath was, of late; else the start has no temperature yet
	Gates    []bath.Gate // what stands in the way of it

	Minutes  float64 // for the timer: Wanted, never beyond Longest
	Wanted   float64 // the longest that anything in it wants
	Longest  float64 // the shortest longest-minutes of anything in it
	Shortest string  // what may have no more than that: "masks"
	Apart    string  // a sentence where its items should not share a wash; else ""

	Mass, MostMass units.Mass
	Up, Room       units.Volume      // Room is 0 where the tank's is not known
	Limit          catalog.Limit     // the lowest of anything in it
	LimitOf        string            // whose that is: "masks"
	Hottest        units.Temperature // that the bath will be, or is set to where it was not measured
}

// Loading looks at a load. The error says why no load at all can be started:
// the numbers stand beside it as far as they are known.
func (x *Snapshot) Loading(ask LoadAsk) (Loading, error) {
	l := Loading{Room: x.Bath.Tank.Room(), Start: bath.Start{Checked: ask.Checked, Lids: ask.Lids}}
	l.Measured = x.Temp != nil && x.Now.Sub(x.Temp.At) <= measuredStands
	if err := x.loadMinutes(ask, &l); err != nil {
		return l, err
	}
	l.Mass, l.Up = bath.MassOf(l.Start.Items), bath.Pushed(l.Start.Items)
	l.Hottest = x.Set()
	if l.Measured {
		l.Start.BathC = x.Temp.C
		l.Hottest = x.Life.Peak(x.Bath.Tank, x.Temp.C, l.Start.Time)
	}
	if !x.Open {
		return l, fmt.Errorf("the bath is empty: fill it, add soap and warm it first")
	}
	l.MostMass = x.Life.MostMass()
	x.State.NamePapers(l.Start.Items, x.Now)
	e := bath.Entry{At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: &l.Start}
	var err error
	l.Gates, err = bath.Gates(x.State, e, x.Now)
	return l, err
}

// loadMinutes puts the items into the start, with the minutes that they share.
func (x *Snapshot) loadMinutes(ask LoadAsk, l *Loading) error {
	var w Washes
	x.planBath(WashesAsk{Bath: units.Temperature(math.NaN())}, &w)
	var wants string
	for _, b := range ask.Batches {
		if b.N == 0 {
			continue
		}
		l.Start.Items = append(l.Start.Items, bath.LoadOf(b.Item, b.N))
		item, _ := x.byPaper(b.Item) // what is washed outside the bath has a gate
		c, err := load.Pick(item, b.Soil, w.Request.Bath)
		if err != nil {
			return err
		}
		if c.Minutes > l.Wanted {
			l.Wanted, wants = c.Minutes, item.Plural
		}
		if l.Longest == 0 || c.Longest < l.Longest {
			l.Longest, l.Shortest = c.Longest, item.Plural
		}
		if l.LimitOf == "" || item.Limit.Hottest() < l.Limit.Hottest() {
			l.Limit, l.LimitOf = item.Limit, item.Plural
		}
		l.Start.Soil = string(b.Soil)
	}
	l.Minutes = min(l.Wanted, l.Longest)
	l.Start.Time = units.Minutes(l.Minutes)
	if l.Wanted > l.Longest {
		l.Apart = fmt.Sprintf("Two loads: %s want %g min, and %s may have %g at most.", wants, l.Wanted, l.Shortest, l.Longest)
	}
	return nil
}

// Preset fills in the form of the start. The bath's temperature is in it where
// it was measured of late.
func (l Loading) Preset(sys units.System) map[string]string {
	p := map[string]string{
		"item": itemCounts(l.Start.Items), "soil": l.Start.Soil, "time": sys.Text(l.Start.Time),
		"checked": yesNo(l.Start.Checked), "lids": yesNo(l.Start.Lids),
	}
	if l.Measured {
		p["bath"] = sys.TempFine(l.Start.BathC)
	}
	return p
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// MostAtOnce is how many pieces are laid out, or planned, while somebody waits
// at a screen: more take a tenth of a second and up.
const MostAtOnce = 60

// Pieces counts what is in batches.
func Pieces(batches []load.Batch) (n int) {
	for _, b := range batches {
		n += b.N
	}
	return n
}

// UsualChangeover is from one wash to the next: gear out, gear in, the bath
// measured. Common practice, no source.
const UsualChangeover units.Span = 5 * 60

// Stow lays a load into the station's baskets as one wash or more, whatever
// the bath's temperature: that has its gates. It asks for no more search than
// a screen can wait for. The error says that nothing is known of baskets.
func (x *Snapshot) Stow(batches []load.Batch) (Washes, error) {
	if len(x.Bath.Baskets) == 0 {
		return Washes{}, fmt.Errorf("no basket is on file: a gear officer logs one (e, then %s) with what it holds, like mask=6, helmet=2", basketTitle())
	}
	const looks = 2
	asked := 0
	if n := Pieces(batches); n > MostAtOnce {
		return Washes{}, fmt.Errorf("%d pieces are more than one wash: v plans them all", n)
	}
	return x.PlanWashes(WashesAsk{Batches: batches, Bath: load.Coolest, Set: load.Coolest, Stop: func() bool { asked++; return asked > looks }})
}

func basketTitle() string {
	spec, _ := bath.SpecOf("basket")
	return spec.Title
}

// Result is the form of the wash that is over, filled in; false while one runs
// or none is in the bath.
func (x *Snapshot) Result() (Action, bool) {
	if all := washResult(x); len(all) > 0 {
		return all[0], true
	}
	return Action{}, false
}
