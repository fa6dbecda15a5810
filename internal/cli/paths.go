package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
)

// places are where the program keeps things.
type places struct {
	Data string `json:"data"`
	Lock string `json:"lock"`

	// Trace is what the program says of itself, once there is something to say.
	Trace string `json:"trace,omitzero"`

	// Own are the files with item and soap types of the station's own.
	Own []ownPlace `json:"catalog"`
}

// ownPlace is where one of them is looked for.
type ownPlace struct {
	File  string `json:"file"`
	There bool   `json:"there"`
}

func (a *app) paths() *cobra.Command {
	return &cobra.Command{
		Use: "paths", Short: "Where everything is kept", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			p := a.places()
			if a.flags.json {
				return a.printJSON(p)
			}
			return a.sayPlaces(p)
		},
	}
}

func (a *app) sayPlaces(p places) error {
	say := fmt.Sprintf("data   %s\nlock   %s\n", p.Data, p.Lock)
	if p.Trace != "" {
		say += fmt.Sprintf("trace  %s\n", p.Trace)
	}
	for _, own := range p.Own {
		note := ""
		if !own.There {
			note = ", not there"
		}
		say += fmt.Sprintf("own    %s%s\n", own.File, note)
	}
	_, err := io.WriteString(page{w: a.Out}, say) // in its own letters: a path without its accents is another
	return err
}

func (a *app) places() places {
	data := absolute(a.dataPath())
	p := places{Data: data, Lock: data + ".lock", Trace: a.tracePath()}
	for _, path := range a.ownPaths() {
		_, err := os.Stat(path)
		p.Own = append(p.Own, ownPlace{absolute(path), err == nil})
	}
	return p
}

// absolute is path from the root, or as it is where that cannot be told.
func absolute(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}
