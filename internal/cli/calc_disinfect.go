package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/chem"
	"bathside/internal/units"
)

func (a *app) calcDisinfect() *cobra.Command {
	var (
		volume  units.Volume
		percent float64
		ppm     = 50.0 // 29 CFR 1910.134 App. B-2
	)
	cmd := &cobra.Command{
		Use: "disinfect", Short: "Bleach for a basin in which masks are disinfected", Args: noWords,
		Long: "How much plain household bleach brings a basin of water to a strength in ppm of available chlorine. Masks take 50 ppm " +
			"for 2 minutes (29 CFR 1910.134 App. B-2), or what their maker approves. Plain, unscented and fresh: old bleach is weaker than its label.",
		Example: "bathside calc disinfect --volume 10L --bleach 8.25",
		RunE:    func(*cobra.Command, []string) error { return a.sayDisinfect(volume, percent, ppm) },
	}
	f := cmd.Flags()
	f.Var(quantity{&volume, "10L"}, "volume", "water in the basin")
	f.Var(quantity{&percent, "8.25"}, "bleach", "percent of sodium hypochlorite, as its label gives it")
	f.Var(quantity{&ppm, "50"}, "ppm", "available chlorine; 50, if left out")
	require(cmd, "volume", "bleach")
	return cmd
}

func (a *app) sayDisinfect(v units.Volume, percent, ppm float64) error {
	bleach, err := chem.Bleach(v, percent, ppm)
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"bleach_ml": 1000 * float64(bleach)})
	}
	_, err = fmt.Fprintf(a.text(), "%.1f mL of %g %% bleach in %s of water make %g ppm. Gloves and eye protection; never into acid, ammonia or the bath: the gas is poisonous.\n",
		1000*float64(bleach), percent, a.system().Text(v), ppm)
	return err
}
