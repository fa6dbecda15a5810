package advise

import (
	"fmt"
	"strings"

	"bathside/internal/bath"
)

// Figure is a number or a fact that a face shows, with where it comes from. A
// figure that is not known says so in Value, and how it would become known.
type Figure struct {
	ID     string // stable: "drop", "level"
	Name   string
	Value  string
	How    string   // the formula in words, or where it stands
	From   []string // what went into it, with the lines of the log book
	Unsure string   // how far it may be out; "" where that is in How or cannot be
	Source string   // who says that it is done so
	Also   string   // other words that somebody may ask for it by
}

// figures is one function and one test each, in the order in which they are
// listed.
var figures = []func(*Snapshot) Figure{
	onDutyFigure, stateFigure, phFigure, equivalentFigure, dropFigure, limitFigure, farFigure,
	tempFigure, readyFigure, levelFigure, strengthFigure, topUpFigure, refillFigure, shelfFigure, meterFigure,
}

// Figures is every figure of the bath that can be asked about.
func (x *Snapshot) Figures() []Figure {
	out := make([]Figure, len(figures))
	for i, f := range figures {
		out[i] = f(x)
	}
	return out
}

// notKnown is the value of a figure that cannot be stated.
const notKnown = "not known"

// line is an entry as a figure names it: "line 23, 12 Mar 07:02: pH 9.95 ...".
func (x *Snapshot) line(e bath.Entry) string {
	return fmt.Sprintf("line %d, %s: %s, by %s", e.Seq, x.Clock(e.At), e.Say(x.Sys), e.By)
}

func onDutyFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "on", Name: "On duty", Value: "nobody is named", Also: "who is on crew shift platoon",
		How: "the members of the platoon that the shift pattern puts on duty, and those who are in none",
	}
	var names []string
	for _, m := range x.OnDuty {
		names = append(names, m.Name)
	}
	if len(names) > 0 {
		f.Value = strings.Join(names, ", ")
	}
	if x.Shift.Platoon != "" {
		f.Value = fmt.Sprintf("%s shift, until %s: %s", x.Shift.Platoon, x.Clock(x.Shift.End), f.Value)
		f.Source = "the station's shift pattern, " + x.State.Site.Shift
	}
	return f
}

func stateFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "state", Name: "The bath is", Value: StateWord(x.PH.State), Also: "how is it state ok",
		How: fmt.Sprintf("OK until the pH is down %.2f, then getting close; at %.2f at the limit; over it once a drop of %.2f can be stated for all that a meter may be out",
			x.PH.Limit-watchBefore, x.PH.Limit, x.PH.Limit),
		Source: "0.5 below the first reading is common practice, no source; a station may set another",
	}
	if x.PH.Drop == nil {
		f.From = []string{x.PH.Why}
	} else {
		f.From = []string{"down " + GiveOrTake(*x.PH.Drop, x.PH.U)}
	}
	return f
}

func limitFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "limit", Name: "Act when the pH is down", Value: fmt.Sprintf("%.2f", x.PH.Limit), Also: "limit allowed drop",
		How: "how far below the first reading of this fill the bath may come; a gear officer changes it under Station", Source: "common practice, no source",
	}
	if x.State.Site.Limit != nil {
		f.Source = "set by the station"
	}
	if x.PH.First != nil {
		f.Value += fmt.Sprintf(", at pH %.2f", float64(x.PH.First.Is.PH)-x.PH.Limit)
		f.From = []string{x.line(x.PH.First.Entry)}
	}
	return f
}
