package cli

import (
	"context"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"bathside/internal/demo"
	"bathside/internal/station"
)

func (a *app) demo() *cobra.Command {
	return &cobra.Command{
		Use: "demo", Short: "Try it out on a made-up station", Args: noWords,
		Long: "Opens the console on a made-up station with some weeks of entries, in a file that is thrown away afterwards. Without a terminal it prints the status.",
		RunE: func(cmd *cobra.Command, _ []string) error { return a.runDemo(cmd.Context()) },
	}
}

func (a *app) runDemo(ctx context.Context) (err error) {
	dir, err := os.MkdirTemp("", "bathside-demo-")
	if err != nil {
		return err
	}
	defer func() {
		if left := os.RemoveAll(dir); err == nil {
			err = left
		}
	}()
	a.flags.data = filepath.Join(dir, "station.db") // before the catalog: the demo has no files of its own
	cat, err := a.catalog()
	if err != nil {
		return err
	}
	if err := demo.Build(a.flags.data, a.now(), cat); err != nil {
		return err
	}
	return a.withStation(func(st *station.Station) error {
		if a.interactive() {
			a.demoRuns = true
			return a.openConsole(ctx, st, a.guides)
		}
		a.sayNoConsole()
		return a.writeStatus(a.text(), st)
	})
}
