package advise

import (
	"fmt"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// previewDrain says which limits a drain passes, before it is recorded. The
// limits themselves are those of bath; what happened is kept all the same.
func (x *Snapshot) previewDrain(d *bath.Drain) string {
	e := bath.Entry{At: x.Now, Logged: x.Now, Bath: x.Bath.ID, Body: d}
	say := []string{x.drainVerdict(d, e)}
	if d.Route == bath.RouteSewer {
		if p, ok := x.State.Permission(bath.StreamLiquid, bath.RouteSewer); ok && p.Also != "" {
			say = append(say, "It also asks for: "+p.Also+".")
		}
	}
	if d.Locked == nil {
		say = append(say, "Heater and ultrasound off and locked out first.")
	}
	if c, ok := x.liquid(d); ok {
		say = append(say, x.scaldSay(c))
	}
	return strings.TrimSpace(strings.Join(say, " "))
}

// liquid is how hot what runs out is, or was when the bath was last measured.
func (x *Snapshot) liquid(d *bath.Drain) (units.Temperature, bool) {
	switch {
	case d.LiquidC != nil:
		return *d.LiquidC, true
	case x.Temp != nil:
		return x.Temp.C, true
	}
	return 0, false
}

func (x *Snapshot) drainVerdict(d *bath.Drain, e bath.Entry) string {
	against := bath.Outside(x.State, e)
	if why, failed := x.failedMeter(); failed && d.PH != nil && d.Route == bath.RouteSewer {
		against = append(against, why)
	}
	switch {
	case len(against) > 0 && d.Route == bath.RouteSewer:
		return fmt.Sprintf("Not for the sewer: %s. Keep the liquid and ask %s. Do not dilute to pass.", strings.Join(against, "; "), x.authority())
	case len(against) > 0:
		return fmt.Sprintf("Outside the rule: %s.", strings.Join(against, "; "))
	case d.Route == bath.RouteSewer:
		return x.passes(d, e)
	case d.Route == bath.RouteHauler && d.PH != nil && *d.PH >= bath.Corrosive:
		return fmt.Sprintf("pH %s is possible corrosive waste (40 CFR 261.22): tell the hauler before it is pumped.", *d.PH)
	case d.Route == bath.RouteHauler:
		return "Keep the hauler's bill for 3 years at least (from memory), and give its number."
	}
	return "Kept until somebody says where it may go: Next asks for it."
}

// passes names the permission and what was held against it.
func (x *Snapshot) passes(d *bath.Drain, e bath.Entry) string {
	p, _ := x.State.Permission(bath.StreamLiquid, bath.RouteSewer)
	var passed []string
	for _, c := range d.LimitChecks(x.State, x.Bath, e) {
		passed = append(passed, c.Say)
	}
	say := fmt.Sprintf("Within %s: %s.", p.Source(), strings.Join(passed, ", "))
	if p.MaxC == nil && d.LiquidC != nil && *d.LiquidC > drainBelow {
		at, most := x.Sys.TempPair(*d.LiquidC, drainBelow)
		say += fmt.Sprintf(" No limit of heat is on file, and %s is hotter than %s: let it cool.", at, most)
	}
	return say
}

// authority is whom to ask about the sewer.
func (x *Snapshot) authority() string {
	if p, ok := x.State.Permission(bath.StreamLiquid, bath.RouteSewer); ok {
		return p.From
	}
	return "whoever runs the sewer"
}

// failedMeter says why nothing is decided by the meter that is in use.
func (x *Snapshot) failedMeter() (why string, failed bool) {
	s, why := newMeters(x.State).standing(x.State.LastMeter(x.Bath.ID), x.Now)
	return why, s.Trust == chem.Failed
}
