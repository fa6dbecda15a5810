package advise

import (
	"fmt"
	"math"
	"strconv"

	"bathside/internal/bath"
)

// How many days ahead a permission that lapses is spoken of, and pressed: our
// judgement, no source. Authorities take weeks.
const (
	lapseSpoken  = 60
	lapsePressed = 14
)

// permissionLapses: a drain without a permission in force is outside the rule.
func permissionLapses(x *Snapshot) []Action {
	var out []Action
	for _, p := range x.State.Permissions {
		end, ok := p.Ends(x.Now.Location())
		if !ok {
			continue
		}
		days := int(math.Ceil(end.Sub(x.Now).Hours()/24)) - 1 // its last day counts
		a := Action{
			ID: "permission-" + p.Stream + "-" + p.Route, Urgency: Today, Due: end, Kind: "discharge",
			Preset: map[string]string{"stream": p.Stream, "route": p.Route},
			Why:    fmt.Sprintf("it is for the %s by way of %s, given by %s, its last day is %s", p.Stream, p.Route, p.From, p.Lapses),
		}
		switch {
		case days > lapseSpoken:
			continue
		case x.lapsed(p):
			a.Say = fmt.Sprintf("Renew %s: it lapsed", p.Name())
		case days < 1:
			a.Say = fmt.Sprintf("Renew %s: it lapses today", p.Name())
		case days == 1:
			a.Say = fmt.Sprintf("Renew %s: it lapses tomorrow", p.Name())
		default:
			a.Say = fmt.Sprintf("Renew %s: it lapses in %d days", p.Name(), days)
			if days > lapsePressed {
				a.Urgency = Soon
			}
		}
		out = append(out, a)
	}
	return out
}

// drainLimits: limits are asked for before a drain is decided, not on the day.
func drainLimits(x *Snapshot) []Action {
	near := x.PH.State == PHWatch || x.deciding() || x.signedToDrain()
	say, ok := x.SewerSay()
	if !x.Open || !near || ok || x.hauled() {
		return none
	}
	a := Action{
		ID: "drain-limits", Urgency: Soon, Kind: "discharge", Preset: map[string]string{"stream": bath.StreamLiquid},
		Say: "Put on file who takes the bath, and the limits",
		Why: say + ", nor a hauler; before a drain is decided",
	}
	if x.deciding() || x.signedToDrain() {
		a.Urgency = Today
	}
	return one(a)
}

// coolForDrain: a hot bath needs a head start.
func coolForDrain(x *Snapshot) []Action {
	if !x.Open || x.PH.State != PHPast && !x.signedToDrain() || x.Temp == nil {
		return none
	}
	most, source := x.drainLimit()
	if x.Temp.C <= most {
		return none
	}
	v := x.vessel.Vessel
	v.Lid = false
	d, err := v.CoolTo(x.Temp.C, most, room)
	if err != nil {
		return none
	}
	from, to := x.Sys.TempPair(x.Temp.C, most)
	return one(Action{
		ID: "cool", Urgency: Today, Kind: "temp",
		Say:  "To drain tomorrow: heater and lid off tonight",
		Why:  fmt.Sprintf("%s to %s takes about %d h with the lid off", from, to, max(1, int(d.Hours()+0.5))),
		From: []string{to + " is " + source},
	})
}

// heldWaste: what is kept back waits for somebody to say where it may go.
func heldWaste(x *Snapshot) []Action {
	var out []Action
	for _, w := range x.Bath.Kept() {
		a := Action{
			ID: fmt.Sprintf("held-%d", w.Seq), Urgency: Soon, Kind: "disposal", Preset: map[string]string{"line": strconv.FormatUint(w.Seq, 10)},
			Say: "Ask where the " + w.Say(x.Sys) + " may go",
			Why: fmt.Sprintf("held since %s, line %d", x.Date(w.At), w.Seq),
		}
		if w.Foul {
			a.Urgency = Today
			a.Why += "; contaminated: never to the sewer, and elsewhere only as somebody named allows"
		}
		out = append(out, a)
	}
	return out
}

// foulCartridges: what filtered a contaminated bath is held with it.
func foulCartridges(x *Snapshot) []Action {
	if x.Open || x.Life.Drain == nil || !x.contaminated() {
		return none
	}
	var out []Action
	for i, changed := range x.Bath.MediaAt {
		if changed.After(x.Bath.Tag.At) {
			continue
		}
		stage := strconv.Itoa(i + 1)
		out = append(out, Action{
			ID: "cartridge-" + stage, Urgency: Today, Kind: "media", Preset: map[string]string{"stage": stage, "route": bath.RouteHold},
			Say: "Change filter cartridge " + stage + ", keep the old one",
			Why: "it was in the contaminated bath, and is held with the liquid and the sludge",
		})
	}
	return out
}
