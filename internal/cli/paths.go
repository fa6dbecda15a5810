package cli

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"
)

// places are where the program keeps things.
type places struct {
	Data string `json:"data"`
	Lock string `json:"lock"`
}

func (a *app) paths() *cobra.Command {
	return &cobra.Command{
		Use: "paths", Short: "Where everything is kept", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			p := a.places()
			if a.flags.json {
				return a.printJSON(p)
			}
			_, err := fmt.Fprintf(a.Out, "data  %s\nlock  %s\n", p.Data, p.Lock)
			return err
		},
	}
}

func (a *app) places() places {
	data := a.dataPath()
	if abs, err := filepath.Abs(data); err == nil {
		data = abs
	}
	return places{Data: data, Lock: data + ".lock"}
}
