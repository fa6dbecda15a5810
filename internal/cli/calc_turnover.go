package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/heat"
	"bathside/internal/units"
)

func (a *app) calcTurnover() *cobra.Command {
	filter := heat.Filter{Efficiency: 1}
	var run units.Span
	cmd := &cobra.Command{
		Use: "turnover", Short: "What a run of the filter comes to", Args: noWords,
		Long:    "How often a pump sends the bath through its filter, and what that removes. In a well mixed bath each pass meets water that is partly clean: three turnovers filter 95 % of it, not all.",
		Example: "bathside calc turnover --flow 8gpm --volume 80gal --time 30min --efficiency 0.9",
		RunE:    func(*cobra.Command, []string) error { return a.sayTurnover(filter, run) },
	}
	f := cmd.Flags()
	f.Var(quantity{&filter.Flow, "8gpm"}, "flow", "of the pump, through the filter as it is")
	f.Var(quantity{&filter.Volume, "80gal"}, "volume", "what stands in the tank")
	f.Var(quantity{&run, "30min"}, "time", "how long the filter runs")
	f.Var(quantity{&filter.Efficiency, "0.9"}, "efficiency", "part of the soil that one pass keeps back, 0 to 1; all of it, if left out")
	require(cmd, "flow", "volume", "time")
	return cmd
}

func (a *app) sayTurnover(f heat.Filter, run units.Span) error {
	r, err := f.Run(run)
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"per_hour": r.PerHour, "turnovers": r.Turnovers, "removed_frac": r.Removed})
	}
	_, err = fmt.Fprintf(a.text(), "%.1f turnovers an hour; %s are %.1f and remove about %.0f %% of the soil, if one pass keeps back %.0f %% and none is added\n",
		r.PerHour, run, r.Turnovers, 100*r.Removed, 100*f.Efficiency)
	return err
}
