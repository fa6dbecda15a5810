package advise

import (
	"fmt"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// drainBelow is how cool a bath should be before it is drained: a rule of this
// console where no permission names a limit. 40 °C is the federal figure at the
// works, not at the drain (40 CFR 403.5(b)(5)).
const drainBelow = units.Temperature(40)

// drainLimit is how cool the bath is to be for its drain, and whose figure
// that is.
func (x *Snapshot) drainLimit() (most units.Temperature, source string) {
	if p, ok := x.State.Permission(bath.StreamLiquid, bath.RouteSewer); ok && p.MaxC != nil {
		return *p.MaxC, p.Source()
	}
	return drainBelow, "a rule of this console, since no limit is on file: the federal figure at the works (40 CFR 403.5(b)(5))"
}

// SewerSay says what is on file for the sewer, and whether a drain may go by
// it.
func (x *Snapshot) SewerSay() (say string, ok bool) {
	p, found := x.State.Permission(bath.StreamLiquid, bath.RouteSewer)
	switch {
	case !found && x.Bath.Tank.Sewer != "":
		return x.Bath.Tank.Sewer + " is on file without its limits", false
	case !found:
		return "no permission for the sewer is on file", false
	case x.lapsed(p):
		return fmt.Sprintf("%s lapsed on %s", p.Name(), p.Lapses), false
	case p.PHLow == nil && p.PHHigh == nil:
		return p.Name() + " is on file without a limit of pH", false
	}
	return strings.Join(append([]string{p.Source()}, p.Limits(x.Sys)...), ", "), true
}

func (x *Snapshot) lapsed(p bath.Permission) bool {
	end, ok := p.Ends(x.Now.Location())
	return ok && !x.Now.Before(end)
}

// hauled reports whether a hauler is on file for the liquid.
func (x *Snapshot) hauled() bool {
	p, ok := x.State.Permission(bath.StreamLiquid, bath.RouteHauler)
	return ok && !x.lapsed(p)
}

// signedToDrain reports whether a drain is signed and waits to be done.
func (x *Snapshot) signedToDrain() bool {
	d, shaken, ok := x.Decided()
	return x.Open && ok && !shaken && d.Is.Choice == bath.ChoiceDrain
}

// scalds is how soon hot water burns grown skin to the second degree (a plumbing
// safety table, second-hand).
var scalds = []struct {
	upTo units.Temperature
	in   string
}{{49, "8 min"}, {51, "2 min"}, {55, "17 s"}, {100, "3 s"}}

// scaldFrom is below any temperature in that table (from memory: pain begins
// there).
const scaldFrom = units.Temperature(43)

// scaldSay warns of hot liquid by the row of the table that is as hot or
// hotter; "" where it is only warm.
func (x *Snapshot) scaldSay(c units.Temperature) string {
	for _, row := range scalds {
		if c >= scaldFrom && c <= row.upTo {
			return fmt.Sprintf("%s can burn in %s.", x.Sys.Temp(c), row.in)
		}
	}
	return ""
}
