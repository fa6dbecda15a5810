package cli

import (
	"bytes"
	"encoding/json"
	"io"

	"github.com/spf13/cobra"

	"bathside/internal/plain"
	"bathside/internal/report"
	"bathside/internal/station"
)

func (a *app) status() *cobra.Command {
	return &cobra.Command{
		Use: "status", Short: "How the bath stands and what to do next", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error { return a.writeStatus(a.text(), st) })
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
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := io.WriteString(a.Out, plain.Escape(b.String()))
	return err
}
