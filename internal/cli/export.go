package cli

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"bathside/internal/station"
)

func (a *app) export() *cobra.Command {
	return &cobra.Command{
		Use: "export [FILE|-]", Short: "Write the log book as JSON Lines", Args: atMostOneWord("the file"),
		Long:    "Writes every line of the log book as it is stored, to FILE or to standard output. A file that is there already is not overwritten.",
		Example: "bathside export station-3.jsonl\nbathside export | wc -l",
		RunE: func(_ *cobra.Command, args []string) error {
			return a.withStation(func(st *station.Station) error {
				if len(args) == 0 || args[0] == "-" {
					return st.Export(a.Out)
				}
				return exportTo(st, args[0])
			})
		},
	}
}

// exportTo leaves no half a file behind.
func exportTo(st *station.Station, path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return refuse("exists", "%s is there already and stays as it is: name another file", path)
	}
	if err != nil {
		return fmt.Errorf("export: %w", err)
	}
	err = errors.Join(st.Export(f), f.Sync(), f.Close())
	if err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}
