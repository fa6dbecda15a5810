package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"bathside/internal/station"
)

func (a *app) importLines() *cobra.Command {
	return &cobra.Command{
		Use: "import FILE|-", Short: "Make a station file from exported lines", Args: oneWord("the file, or - for standard input"),
		Long:    "Makes a new station file from lines that export wrote, and checks that none was changed. A station file that is there already is not overwritten.",
		Example: "bathside --data copy.db import station-3.jsonl",
		RunE: func(cmd *cobra.Command, args []string) error {
			if args[0] == "-" {
				return a.importFrom(cmd.Context(), "standard input", a.In)
			}
			f, err := os.Open(args[0])
			if err != nil {
				return refuse("no-file", "%s cannot be read: give the file that bathside export wrote", args[0])
			}
			defer f.Close()
			return a.importFrom(cmd.Context(), args[0], f)
		},
	}
}

func (a *app) importFrom(ctx context.Context, name string, r io.Reader) error {
	n, err := station.Import(a.dataPath(), &interruptible{ctx, r})
	switch {
	case err == nil:
	case errors.Is(err, station.ErrExists), errors.Is(err, station.ErrFull), errors.Is(err, station.ErrReadOnly), errors.Is(err, context.Canceled):
		return err
	default:
		return refuse("lines", "%s was not taken: %s", name, oneLine(err))
	}
	return a.withStation(func(st *station.Station) error {
		seal, err := st.Seal()
		if err != nil {
			return err
		}
		return a.sayCount(n, seal, "taken into "+a.dataPath())
	})
}

// sayCount tells how long a log book is, with the seal number to compare.
func (a *app) sayCount(lines uint64, seal, what string) error {
	if a.flags.json {
		return a.printJSON(struct {
			Entries uint64 `json:"entries"`
			Seal    string `json:"seal"`
		}{lines, seal})
	}
	_, err := fmt.Fprintf(a.text(), "%d lines %s, seal number %s\n", lines, what, seal)
	return err
}

// interruptible is a reader that ends with its context.
type interruptible struct {
	ctx context.Context
	r   io.Reader
}

func (i *interruptible) Read(p []byte) (int, error) {
	if err := i.ctx.Err(); err != nil {
		return 0, err
	}
	return i.r.Read(p)
}
