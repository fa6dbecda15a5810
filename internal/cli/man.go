package cli

import (
	"fmt"
	"strings"

	mango "github.com/muesli/mango-cobra"
	"github.com/muesli/roff"
	"github.com/spf13/cobra"

	"bathside/internal/console"
)

const exitCodes = "0 fine, 1 failed, 2 wrong usage or refused input, 3 station file in use, 4 verify found damage, 130 interrupted"

func (a *app) man() *cobra.Command {
	return &cobra.Command{
		Use: "man", Short: "Write the manual page", Args: noWords,
		Example: "bathside man > bathside.1",
		RunE: func(cmd *cobra.Command, _ []string) error {
			page, err := mango.NewManPage(1, cmd.Root())
			if err != nil {
				return err
			}
			page = page.WithSection("Keys", keysSay()).WithSection("Exit codes", exitCodes)
			_, err = fmt.Fprintln(a.Out, page.Build(roff.NewDocument()))
			return err
		},
	}
}

// keysSay is the console's keys, a line each under the screen that they work on.
func keysSay() string {
	var b strings.Builder
	where := ""
	for _, k := range console.KeyTable() {
		if k.Where != where {
			where = k.Where
			fmt.Fprintf(&b, "\n%s:\n", strings.ToUpper(where[:1])+where[1:])
		}
		fmt.Fprintf(&b, "  %-10s %s\n", k.Key, k.Say)
	}
	return b.String()
}
