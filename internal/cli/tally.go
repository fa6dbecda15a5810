package cli

import (
	"github.com/spf13/cobra"

	"bathside/internal/report"
	"bathside/internal/station"
)

func (a *app) tally() *cobra.Command {
	return &cobra.Command{
		Use: "tally", Short: "A sheet to write on while the computer is down", Args: noWords,
		Example: "bathside tally | lp",
		RunE: func(*cobra.Command, []string) error {
			if a.flags.json {
				return usage("json", "the tally is a sheet of paper: leave out --json")
			}
			return a.withStation(a.writeTally)
		},
	}
}

func (a *app) writeTally(st *station.Station) error {
	x, err := a.snapshot(st)
	if err != nil {
		return err
	}
	seal, err := st.SealOf(x.State.Seq)
	if err != nil {
		return err
	}
	return report.WriteTally(a.text(), x, st.Catalog().Items, seal)
}
