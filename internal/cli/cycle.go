package cli

import (
	"errors"
	"math"
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/heat"
	"bathside/internal/load"
	"bathside/internal/station"
	"bathside/internal/units"
)

// measuredFor is how long a measured bath temperature counts.
const measuredFor = 15 * time.Minute

func (a *app) cycle() *cobra.Command {
	soil := "normal"
	measured := units.Temperature(math.NaN())
	cmd := &cobra.Command{
		Use: "cycle ITEM", Short: "Minutes, basket and lid for an item", Args: oneWord("the item type"),
		Long:              "Minutes, basket, lid and checks for one type of item, and whether it may go in. What never goes in is answered with what to do instead. The bath is at --bath-temp, else as last measured if that is at most 15 min old. It works without a station too.",
		Example:           "bathside cycle mask --soil light --bath-temp 104F",
		ValidArgsFunction: a.completeItem,
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.pick(args[0], soil, measured)
		},
	}
	cmd.Flags().StringVar(&soil, "soil", soil, "how dirty it is: light, normal or heavy")
	cmd.Flags().Var(quantity{&measured, "104F"}, "bath-temp", "measured, not the dial")
	offer(cmd, "soil", []string{"light", "normal", "heavy"})
	return cmd
}

func (a *app) completeItem(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	cat, err := a.catalog()
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var ids []string
	for _, item := range cat.Items {
		ids = append(ids, item.ID+"\t"+item.Name)
	}
	return ids, cobra.ShellCompDirectiveNoFileComp
}

func (a *app) pick(name, soilWord string, measured units.Temperature) error {
	cat, err := a.catalog()
	if err != nil {
		return err
	}
	item, err := cat.Item(name)
	var never *catalog.ExcludedError
	if err != nil && !errors.As(err, &never) {
		return err
	}
	soil, err := load.ParseSoil(soilWord)
	if err != nil {
		return refuse("input", "%s", err)
	}
	x, err := a.here()
	if err != nil {
		return err
	}
	in := a.conditions(x, item, measured)
	if never != nil {
		return a.printCycle(newCycle(load.KeepOut(never.Excluded, soil), in, tagOf(x)))
	}
	c, err := load.Pick(item, soil, in)
	if err != nil {
		return refuse("input", "%s", err)
	}
	return a.printCycle(newCycle(c, in, tagOf(x)))
}

// here is how the bath of this station stands; nil where there is no station.
func (a *app) here() (x *advise.Snapshot, err error) {
	err = a.withStation(func(st *station.Station) (err error) {
		x, err = a.snapshot(st)
		return err
	})
	if errors.Is(err, station.ErrNotExist) {
		return nil, nil
	}
	return x, err
}

// conditions are those of the station's bath. A temperature that was given is
// taken as it is; a measured one will have risen by the end of the wash unless
// the heater is known to be off.
func (a *app) conditions(x *advise.Snapshot, item catalog.Item, given units.Temperature) load.Conditions {
	in := load.Conditions{Bath: given, Set: bath.Tank{}.Set(), Units: a.system()}
	if x == nil {
		return in
	}
	in.Set, in.PerTenC, in.Units = x.Set(), x.State.Site.Lengthen(), x.Sys
	if t := x.Temp; math.IsNaN(float64(given)) && t != nil && a.now().Sub(t.At) <= measuredFor {
		in.Bath = t.C
		if t.HeaterOn == nil || *t.HeaterOn {
			in.Peak = peak(x, in, item)
		}
	}
	return in
}

// peak is where the heater takes the bath in the longest wash of the item, at
// most to the set point.
func peak(x *advise.Snapshot, in load.Conditions, item catalog.Item) units.Temperature {
	rise := heat.RisePerMinute(x.Level.VolumeL, x.Bath.Tank.Heater())
	return min(in.Set, in.Bath+units.Temperature(float64(rise)*item.Minutes.Longest))
}

func tagOf(x *advise.Snapshot) string {
	if x == nil {
		return ""
	}
	return x.TagSay()
}
