package cli

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/heat"
	"bathside/internal/units"
)

// warmUp is what calc warmup is asked.
type warmUp struct {
	vessel      heat.Vessel
	from, to    units.Temperature
	power       units.Power
	room        heat.Room
	steel       units.Mass
	area, walls units.Area
}

func (a *app) calcWarmup() *cobra.Command {
	w := warmUp{room: heat.Room{Air: 20, RH: 0.5}}
	cmd := &cobra.Command{
		Use: "warmup", Short: "How long the heater takes", Args: noWords,
		Long:    "How long the heater takes to warm a bath, losses counted. Steel, area and walls are those of a usual tank of that volume where they are left out.",
		Example: "bathside calc warmup --volume 64gal --from 60F --to 122F --power 6kW --lid",
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.sayWarmUp(cmd, w) },
	}
	f := cmd.Flags()
	f.Var(quantity{&w.vessel.Water, "64gal"}, "volume", "water in the tank")
	f.Var(quantity{&w.from, "60F"}, "from", "how warm it is")
	f.Var(quantity{&w.to, "122F"}, "to", "how warm it should be")
	f.Var(quantity{&w.power, "6kW"}, "power", "the heater's, from its plate")
	f.Var(quantity{&w.steel, "40kg"}, "steel", "of the tank and what is in it")
	f.Var(quantity{&w.area, "0.3m2"}, "area", "of the water's surface")
	f.Var(quantity{&w.walls, "1.9m2"}, "walls", "area of walls and bottom")
	f.Var(quantity{&w.room.Air, "68F"}, "air", "of the room; 20 °C, if left out")
	f.BoolVar(&w.vessel.Lid, "lid", false, "the lid is on")
	f.BoolVar(&w.vessel.Insulated, "insulated", false, "the walls are insulated")
	require(cmd, "volume", "from", "to", "power")
	return cmd
}

// shape fills in what was not given from the usual tank of that volume.
func (w *warmUp) shape(given func(flag string) bool) {
	usual := heat.NewVessel(w.vessel.Water)
	usual.Lid, usual.Insulated = w.vessel.Lid, w.vessel.Insulated
	if given("steel") {
		usual.Steel = w.steel
	}
	if given("area") {
		usual.Surface = w.area
	}
	if given("walls") {
		usual.Walls = w.walls
	}
	w.vessel = usual
}

func (a *app) sayWarmUp(cmd *cobra.Command, w warmUp) error {
	w.shape(cmd.Flags().Changed)
	d, err := w.vessel.WarmUp(w.from, w.to, w.power, w.room)
	if err != nil {
		return refuse("input", "%s", a.heatSays(err))
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"hours": d.Hours()})
	}
	sys := a.system()
	_, err = fmt.Fprintf(a.text(), "%s from %s to %s with %s: %s\n",
		sys.Volume(w.vessel.Water), sys.TempFine(w.from), sys.TempFine(w.to), sys.Text(w.power), units.SpanOf(d.Round(time.Minute)))
	return err
}

// heatSays is an error of the heat model in the units of the crew.
func (a *app) heatSays(err error) string {
	if weak := new(heat.TooWeak); errors.As(err, &weak) {
		return weak.In(a.system())
	}
	return err.Error()
}
