package cli

import (
	"encoding/json"
	"io"

	"github.com/spf13/cobra"

	"bathside/internal/report"
	"bathside/internal/station"
)

func (a *app) status() *cobra.Command {
	return &cobra.Command{
		Use: "status", Short: "How the bath stands and what to do next", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error { return a.writeStatus(a.Out, st) })
		},
	}
}

func (a *app) writeStatus(w io.Writer, st *station.Station) error {
	x, err := a.snapshot(st)
	if err != nil {
		return err
	}
	if a.flags.json {
		return a.printJSON(report.NewStatus(x))
	}
	return report.WriteStatus(w, x)
}

// printJSON writes one value for people and scripts alike.
func (a *app) printJSON(v any) error {
	enc := json.NewEncoder(a.Out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
