package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func (a *app) calcDose() *cobra.Command {
	var (
		volume  units.Volume
		ratio   float64
		inWater bool
	)
	cmd := &cobra.Command{
		Use: "dose", Short: "Soap for a volume at a ratio", Args: noWords,
		Example: "bathside calc dose --volume 64gal --ratio 40",
		RunE:    func(*cobra.Command, []string) error { return a.sayDose(volume, ratio, inWater) },
	}
	f := cmd.Flags()
	f.Var(quantity{&volume, "64gal"}, "volume", "what stands in the tank")
	f.Var(quantity{&ratio, "40"}, "ratio", "parts to 1")
	f.BoolVar(&inWater, "of-water", false, "the parts are counted in water alone: volume/(ratio+1)")
	require(cmd, "volume", "ratio")
	return cmd
}

func (a *app) sayDose(volume units.Volume, ratio float64, inWater bool) error {
	if volume <= 0 {
		return refuse("input", "no volume takes no soap: give what stands in the tank")
	}
	if err := checkRatio(ratio); err != nil {
		return err
	}
	if a.flags.json {
		return a.printJSON(map[string]units.Volume{"detergent_l": bath.Charge(volume, ratio, inWater)})
	}
	_, err := fmt.Fprintln(a.text(), sayBothReadings(a.system(), volume, ratio, inWater))
	return err
}
