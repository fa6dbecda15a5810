package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/heat"
	"bathside/internal/units"
)

func (a *app) calcEvaporation() *cobra.Command {
	var (
		v    heat.Vessel
		bath units.Temperature
		room = heat.Room{Air: 20, RH: 0.5}
	)
	cmd := &cobra.Command{
		Use: "evaporation", Short: "Water that a bath gives to the room", Args: noWords,
		Long:    "What a still bath loses by its surface, in a room without a draught: what to add in a day, all of it water. Under a lid a tenth of an open bath's vapour is taken to get past, an assumption.",
		Example: "bathside calc evaporation --area 0.3m2 --bath 52C --air 20C --rh 50 --lid",
		RunE:    func(*cobra.Command, []string) error { return a.sayEvaporation(v, bath, room) },
	}
	f := cmd.Flags()
	f.Var(quantity{&v.Surface, "0.3m2"}, "area", "of the water's surface")
	f.Var(quantity{&bath, "52C"}, "bath", "how warm it is")
	f.Var(quantity{&room.Air, "68F"}, "air", "of the room; 20 °C, if left out")
	f.Var(perCent{&room.RH}, "rh", "relative humidity of the room in per cent; 50, if left out")
	f.BoolVar(&v.Lid, "lid", false, "the lid is on")
	require(cmd, "area", "bath")
	return cmd
}

func (a *app) sayEvaporation(v heat.Vessel, bath units.Temperature, room heat.Room) error {
	if v.Surface == 0 {
		return refuse("input", "no surface gives off no water: give the area of the water's surface, like 0.3m2")
	}
	e, err := v.Evaporation(bath, room)
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"kg_per_h": float64(e), "litres_per_day": float64(e.PerDay())})
	}
	kind, sys := "an open bath", a.system()
	if v.Lid {
		kind = "a covered bath"
	}
	_, err = fmt.Fprintf(a.text(), "%s of %s at %s in air of %s and %.0f %% gives off %s a day, %s an hour: %s\n",
		kind, sys.Text(v.Surface), sys.Temp(bath), sys.Temp(room.Air), 100*room.RH, sys.Volume(e.PerDay()), sys.Pour(e.PerDay()/24), goodTo(v, bath))
	return err
}

// goodTo is how good the figure of heat.Vessel.Evaporation is, as it promises.
func goodTo(v heat.Vessel, bath units.Temperature) string {
	switch {
	case v.Lid:
		return "if a tenth gets past the lid, an assumption"
	case bath < 38:
		return "an upper bound, for so cool a bath"
	case bath > 65:
		return "take it as about, for so hot a bath"
	}
	return "good to about 20 %"
}

// perCent is a part of 1, typed in per cent: 50 or 50%.
type perCent struct{ part *float64 }

func (p perCent) String() string { return "" }
func (p perCent) Type() string   { return "50" }

// Set refuses 0.5 too: it would be taken for half of a per cent.
func (p perCent) Set(text string) error {
	var x float64
	err := units.Scan(&x, strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if err != nil || !(x == 0 || x >= 1 && x <= 100) {
		return refuse("input", "%s is no humidity: write it in per cent like 50, from 1 to 100, or 0", quote(text))
	}
	*p.part = x / 100
	return nil
}
