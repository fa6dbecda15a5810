package bath

import (
	"fmt"

	"bathside/internal/units"
)

// What can be decided about a bath.
const (
	ChoiceKeep  = "keep"
	ChoiceTopUp = "top-up"
	ChoiceDrain = "drain"
)

// Decision is what the gear officer decided about the bath, with what was on
// the screen when it was signed.
type Decision struct {
	Choice   string        `json:"choice"`
	DoseL    *units.Volume `json:"dose_l,omitzero"` // of a top-up
	Why      string        `json:"why,omitzero"`
	Advice   string        `json:"advice,omitzero"` // the choice that was advised
	Evidence *Evidence     `json:"evidence,omitzero"`
}

// Evidence is what a decision rests on.
type Evidence struct {
	Rests    []uint64     `json:"rests"` // lines: the first reading and the last
	State    string       `json:"state"`
	Drop     *float64     `json:"drop,omitzero"`
	UDrop    *float64     `json:"u_drop,omitzero"`
	Limit    float64      `json:"limit"`
	Reasons  []string     `json:"reasons"`
	Flips    []string     `json:"flips,omitempty"`
	AdviseL  units.Volume `json:"advise_l,omitzero"` // the top-up that was advised
	GainDays *float64     `json:"gain_days,omitzero"`
	DueDays  *float64     `json:"due_days,omitzero"` // until the limit, as likely sooner as later
}

var decisionSpec = &Spec{
	Kind: "decision", Title: "Sign a decision", Scope: OfFill, Role: Officer, held: true,
	New: func() Body { return new(Decision) },
	Fields: []Field{
		field("choice", "choice", ChoiceKeep, func(d *Decision) *string { return &d.Choice }).words(ChoiceKeep, ChoiceTopUp, ChoiceDrain).help("top up with the same soap, drain and refill, or keep it as it is"),
		field("dose", "soap to add", "1gal", func(d *Decision) **units.Volume { return &d.DoseL }).optional("for a top-up; as advised, if left out"),
		field("why", "why", "hauler comes tomorrow", func(d *Decision) *string { return &d.Why }).optional("needed where it is not what was advised"),
	},
}

func (d *Decision) spec() *Spec { return decisionSpec }

func (d *Decision) check(v view, _ Entry) error {
	switch {
	case d.Evidence == nil:
		return refuse("evidence", "a decision is signed with its evidence: use the Decide screen, or bathside decide --sign %s", d.Choice)
	case d.Choice == ChoiceTopUp && v.b.Tag != nil && v.b.Tag.Kind == HoldContaminated:
		return refuse("contaminated", "the bath was red-tagged by %s as contaminated, and soap mends nothing: sign the drain, with the liquid held", v.b.Tag.By)
	case d.Choice != d.Advice && d.Why == "":
		return refuse("why", "%q was advised and %q is chosen: say why", d.Advice, d.Choice)
	case d.Choice == ChoiceTopUp && (d.DoseL == nil || *d.DoseL <= 0):
		return refuse("missing", "how much soap is to be added? Give it like --dose 1gal")
	case d.Choice != ChoiceTopUp && d.DoseL != nil:
		return refuse("input", "soap is added for a top-up only: leave the dose out, or choose top-up")
	case d.Choice == ChoiceTopUp:
		return checkStrength(v, *d.DoseL)
	}
	return nil
}

func (d *Decision) say(sys units.System) string {
	s := "decided: " + saidChoice[d.Choice]
	if d.DoseL != nil {
		s += " with " + sys.Text(*d.DoseL)
	}
	if d.Advice != d.Choice {
		s += fmt.Sprintf(" (advised: %s)", saidChoice[d.Advice])
	}
	return s + suffix(" · ", d.Why)
}

var saidChoice = map[string]string{ChoiceKeep: "keep it as it is", ChoiceTopUp: "top up", ChoiceDrain: "drain and refill"}
