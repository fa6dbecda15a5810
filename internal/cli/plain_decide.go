package cli

import (
	"context"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/report"
	"bathside/internal/station"
)

// decideByTalk is decide --plain at a terminal.
func (a *app) decideByTalk(ctx context.Context, st *station.Station) error {
	t, err := a.newTalk(ctx, st)
	if err != nil {
		return err
	}
	return t.end(t.decideAloud())
}

// decideAloud reads out the evidence, and lets a gear officer sign beside it.
func (t *talk) decideAloud() error {
	d, err := t.x.Decide()
	if err != nil {
		return refuse("no-fill", "%s", err)
	}
	if err := report.WriteDecision(t.text(), t.x, d, nil); err != nil {
		return err
	}
	choices := []string{bath.ChoiceDrain, bath.ChoiceKeep}
	if d.TopUp != nil {
		choices = append([]string{bath.ChoiceTopUp}, choices...)
	}
	t.say("")
	t.say("A gear officer signs what is to be done.")
	i, err := t.choose("Number; enter goes on without a signature", "", options(choices))
	if err != nil || i < 0 {
		return err
	}
	spec, _ := bath.SpecOf("decision")
	_, err = t.newForm(spec, t.signing(d, choices[i])).run()
	return err
}

// signing fills in what was read out: the choice, its dose, and the want of a
// reason where it is not what was advised.
func (t *talk) signing(d advise.Decision, choice string) map[string]string {
	preset := map[string]string{"choice": choice}
	if choice == bath.ChoiceTopUp {
		preset["dose"] = t.x.Sys.Volume(d.TopUp.DoseL)
	}
	if choice != d.Choice {
		preset["why"] = ""
	}
	return preset
}
