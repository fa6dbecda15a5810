package cli

import "github.com/spf13/cobra"

// calc computes without a station: nothing is read and nothing recorded.
func (a *app) calc() *cobra.Command {
	return parent("calc", "Compute something, without a station",
		a.calcDose(), a.calcPH(), a.calcRestate(), a.calcEffect(), a.calcMeter(),
		a.calcWarmup(), a.calcEvaporation(), a.calcTurnover(), a.calcForecast(), a.calcRenewal(), a.calcPack(), a.calcDisinfect())
}
