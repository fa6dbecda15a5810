package cli

import (
	"fmt"
	"path/filepath"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"
)

// places are where the program keeps things.
type places struct {
	Data   string `json:"data"`
	Lock   string `json:"lock"`
	Log    string `json:"log"`
	Config string `json:"config"`
}

func (a *app) paths() *cobra.Command {
	return &cobra.Command{
		Use: "paths", Short: "Where everything is kept", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			p := a.places()
			if a.flags.json {
				return a.printJSON(p)
			}
			_, err := fmt.Fprintf(a.Out, "data    %s\nlock    %s\nlog     %s\nconfig  %s\n", p.Data, p.Lock, p.Log, p.Config)
			return err
		},
	}
}

func (a *app) places() places {
	data := a.dataPath()
	if abs, err := filepath.Abs(data); err == nil {
		data = abs
	}
	return places{
		Data:   data,
		Lock:   data + ".lock",
		Log:    filepath.Join(xdg.StateHome, "bathside", "bathside.log"),
		Config: filepath.Join(xdg.ConfigHome, "bathside", "config.toml"),
	}
}
