package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/catalog"
	"bathside/internal/chem"
	"bathside/internal/units"
)

func (a *app) calcRestate() *cobra.Command {
	var (
		s      chem.Sample
		to     units.Temperature
		family string
	)
	cmd := &cobra.Command{
		Use: "restate", Short: "What a pH would read at another temperature", Args: noWords,
		Long:    "What the same bath would read at another temperature, with the standard uncertainty of that. A meter's own temperature compensation corrects the electrode, never the bath.",
		Example: "bathside calc restate --ph 10.10 --at 50C --to 25C --family soda-ash",
		RunE:    func(*cobra.Command, []string) error { return a.sayRestated(s, to, family) },
	}
	f := cmd.Flags()
	f.Var(quantity{&s.PH, "10.10"}, "ph", "as read")
	f.Var(quantity{&s.At, "122F"}, "at", "the sample it was read in")
	f.Var(quantity{&to, "77F"}, "to", "the temperature to restate it for")
	familyFlag(cmd, &family)
	require(cmd, "ph", "at", "to")
	return cmd
}

// familyFlag is --family; unknown where it is left out.
func familyFlag(cmd *cobra.Command, family *string) {
	cmd.Flags().StringVar(family, "family", chem.Unknown, "soap type: what carries the pH")
	offer(cmd, "family", catalog.Families)
}

func (a *app) sayRestated(s chem.Sample, to units.Temperature, family string) error {
	soap, err := chem.FindFamily(family)
	if err != nil {
		return refuse("input", "%s", err)
	}
	ph, u, err := chem.Restate(soap, s.PH, s.At, to)
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"ph": float64(ph), "u": u})
	}
	sys := a.system()
	_, err = fmt.Fprintf(a.text(), "%.2f at %s would read %.2f ± %.2f at %s\n", float64(s.PH), sys.Temp(s.At), float64(ph), u, sys.Temp(to))
	return err
}
