package cli

import (
	"context"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/report"
	"bathside/internal/station"
	"bathside/internal/units"
)

func (a *app) decide() *cobra.Command {
	var (
		b  bath.Decision
		at string
	)
	cmd := &cobra.Command{
		Use: "decide", Short: "Top up, drain or keep: advice, and a signature", Args: noWords,
		Long:    "What should be done about the bath, why, what would change the answer, and what a top-up and a refill bring and cost. With --sign the gear officer's decision goes into the log book with what it rests on.",
		Example: "bathside decide\nbathside decide --dose 1gal\nbathside decide --sign drain --why \"hauler comes tomorrow\" --as Reyes",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withStation(func(st *station.Station) error { return a.decideOn(cmd.Context(), st, &b, at) })
		},
	}
	spec, _ := bath.SpecOf("decision")
	for name, flag := range map[string]string{"choice": "sign", "dose": "dose", "why": "why"} {
		field, _ := spec.Field(name)
		addField(cmd, flag, field, &b)
	}
	cmd.Flags().StringVar(&at, "at", "", atHelp)
	return cmd
}

// decideOn signs b where a choice was made, else it advises.
func (a *app) decideOn(ctx context.Context, st *station.Station, b *bath.Decision, at string) error {
	switch {
	case b.Choice != "":
		return a.logOne(ctx, st, at, b)
	case b.Why != "" || at != "":
		return refuse("missing", "--why and --at belong to a decision: give --sign keep, top-up or drain with them")
	}
	if a.talks() && b.DoseL == nil {
		return a.decideByTalk(ctx, st)
	}
	x, err := a.snapshot(st)
	if err != nil {
		return err
	}
	d, err := x.Decide()
	if err != nil {
		return err
	}
	var asked *advise.TopUp
	if b.DoseL != nil {
		if asked, err = tryDose(x, *b.DoseL); err != nil {
			return err
		}
	}
	if a.flags.json {
		out := newDecideAnswer(x, d, asked)
		out.Lines = x.State.Seq
		if out.Seal, err = st.SealOf(out.Lines); err != nil {
			return err
		}
		return a.printJSON(out)
	}
	return a.onPaper(st, x, func() error { return report.WriteDecision(a.text(), x, d, asked) })
}

// tryDose is what so much soap would do, or why that cannot be said.
func tryDose(x *advise.Snapshot, dose units.Volume) (*advise.TopUp, error) {
	if err := mayPour(x, dose); err != nil {
		return nil, err
	}
	if t := x.TopUp(dose); t != nil {
		return t, nil
	}
	if tag := x.Bath.Tag; tag != nil && tag.Kind == bath.HoldContaminated {
		return nil, refuse("contaminated", "the bath is contaminated, and soap mends nothing: drain it, and hold what comes out")
	}
	o, err := x.Outlook()
	if err == nil && x.Soap == nil {
		return nil, refuse("early", "the bath is not near its limit, and more soap is reckoned from there on: keep it as it is")
	}
	if err == nil {
		_, err = o.After(dose)
	}
	if err == nil { // a top-up of nothing
		return nil, refuse("input", "%s changes nothing: give the soap to add, like 1gal", x.Sys.Volume(dose))
	}
	return nil, refuse("input", "%s", err)
}

// mayPour says of a dose that is only thought of what log dose would say.
func mayPour(x *advise.Snapshot, dose units.Volume) error {
	for _, m := range x.State.Members {
		if !m.Left {
			return bath.Check(x.State, bath.Entry{At: x.Now, By: m.Name, Bath: x.Bath.ID, Body: &bath.Dose{VolumeL: dose}}, x.Now)
		}
	}
	return nil
}
