package advise

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// PreviewBody says what an entry would mean before it is recorded, where
// there is something to say: one line or nothing.
func (x *Snapshot) PreviewBody(b bath.Body) string {
	switch b := b.(type) {
	case *bath.Reading:
		say, _ := x.Preview(b)
		return say
	case *bath.Dose:
		return x.previewDose(b)
	case *bath.Wash:
		if t := x.Bath.Tag; t != nil {
			return "The bath is red-tagged: start nothing. What happened already is kept, outside the rule."
		}
		return x.previewTemp(b.BathC)
	case *bath.Start:
		return x.previewStart(b)
	case *bath.Hold:
		return previewHold(b)
	case *bath.Fill:
		return x.previewFill(b)
	case *bath.Drain:
		return x.previewDrain(b)
	case *bath.Temp:
		return x.previewTemp(b.BathC)
	case *bath.Calibration:
		return x.previewCheck(b)
	}
	return ""
}

// previewStart names the first thing that stands in the way of a start, as far
// as is typed. What an item's own limit says is known at the door.
func (x *Snapshot) previewStart(s *bath.Start) string {
	named := *s
	named.Items = slices.Clone(s.Items)
	for i := range named.Items { // the full name is known at the door
		named.Items[i].Name = cmp.Or(named.Items[i].Name, named.Items[i].Item)
	}
	e := bath.Entry{At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: &named}
	gates, err := bath.Gates(x.State, e, x.Now)
	if err != nil {
		return "Nothing can be started: " + err.Error() + "."
	}
	gates = slices.DeleteFunc(gates, func(g bath.Gate) bool { return g.ID == "no-limit" }) // the door fills in what the catalog knows
	if len(gates) == 0 {
		return "Set the machine's timer to it, start it, and see it stop by itself."
	}
	return gates[0].Say()
}

func previewHold(h *bath.Hold) string {
	say := "Every screen says DO NOT USE until a gear officer lifts it."
	if h.Cause == bath.HoldContaminated && h.Wash == 0 {
		say += " Name the wash that brought it in: what was washed in it or after it is held too."
	}
	return say
}

func (x *Snapshot) previewFill(f *bath.Fill) string {
	var say []string
	if m := x.Bath.Tank.Mark; m != "" {
		say = append(say, "The mark: "+m+".")
	}
	if f.Hardness != nil {
		if hard := chem.HardWater(family(x.Bath.Tank), *f.Hardness); hard != "" {
			say = append(say, "Note: "+hard+".")
		}
	}
	return strings.Join(say, " ")
}

func (x *Snapshot) previewCheck(c *bath.Calibration) string {
	if !c.Full() && c.Check == nil {
		return ""
	}
	v := judgeCheck(c, x.Bath.Tank.Set())
	return strings.Join(append([]string{v.Say + "."}, v.Notes...), " ")
}

func (x *Snapshot) previewTemp(c units.Temperature) string {
	if c > x.Bath.Tank.Max()+overBand {
		return "Above the hottest allowed: heater off, gear out."
	}
	return ""
}

func (x *Snapshot) previewDose(d *bath.Dose) string {
	if !x.Open {
		return "No fill is open: log the fill first."
	}
	if x.contaminated() {
		return "The bath is contaminated: add nothing. What went in already is kept."
	}
	charge := x.Life.Charge(x.State, x.Bath.Tank)
	if charge <= 0 {
		return x.Amount(d.VolumeL) + "."
	}
	say := fmt.Sprintf("%s. A full first dose here is %s.", x.Amount(d.VolumeL), x.Amount(charge))
	if x.Soap == nil {
		return say
	}
	if after, err := x.Soap.After(d.VolumeL); err == nil {
		say += fmt.Sprintf(" Then it would likely read %.2f to %.2f at %s.", float64(after.Low), float64(after.High), x.Sys.Temp(x.Soap.At()))
	}
	return say
}

// Complete puts into a body what nobody types and only advice knows, before it
// is recorded: what a decision rests on, and which of several readings counts.
func (x *Snapshot) Complete(b bath.Body) error {
	switch b := b.(type) {
	case *bath.Decision:
		return x.Sign(b)
	case *bath.Reading:
		x.Settle(b)
	}
	return nil
}
