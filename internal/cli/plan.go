package cli

import (
	"math"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/load"
	"bathside/internal/station"
	"bathside/internal/units"
)

// planFlags is what the command line says of a plan.
type planFlags struct {
	items   countsFlag
	file    string
	soil    string
	bath    units.Temperature
	set     units.Temperature
	needs   needsFlag
	baskets basketsFlag
	dry     dryingFlag
	care    load.Care
	heavy   bool
}

func (a *app) plan() *cobra.Command {
	in := planFlags{soil: "normal", bath: units.Temperature(math.NaN()), care: load.Care{Changeover: advise.UsualChangeover}}
	cmd := &cobra.Command{
		Use: "plan", Short: "What goes in which basket and wash, and when it is back", Args: noWords,
		Long: `Shares out a night of gear over baskets and washes: as few washes as can be, then the least minutes. Items share a wash only where none stays in beyond its longest. What is needed first goes first, then the lightly soiled before the dirty. It searches for about 2 s at most and says how far from the best possible it is.

Baskets are those on file (log basket), with the station's own counts; --basket gives others instead. The bath is as warm as you say, else as last measured if that is at most 15 min old, else at its set point. It starts nothing and records nothing.`,
		Example: "bathside plan --mask 12 --helmet 4 --bath-temp 104F --set 108F\nbathside plan --file load.json --need mask=4,pack=4@04:00 --drying mask=45min,pack=3h",
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error { return a.planOn(st, in) })
		},
	}
	in.items.addTo(cmd)
	f := cmd.Flags()
	f.StringVar(&in.file, "file", "", `JSON file: {"mask": 12} or [{"item": "mask", "count": 12, "soil": "heavy"}]; - is standard input`)
	f.StringVar(&in.soil, "soil", in.soil, "how dirty it is: light, normal or heavy")
	f.Var(quantity{&in.bath, "104F"}, "bath-temp", "measured, not the dial")
	f.Var(quantity{&in.set, "108F"}, "set", "plan with this set point; the one in force, if left out")
	f.Var(&in.needs, "need", "what must be back first, and by when; may be given several times")
	f.Var(&in.baskets, "basket", "name:kind:how many go in at once:what one holds, each item by itself; instead of those on file; may be given several times")
	f.Var(&in.dry, "drying", "how long each item dries, as your station knows it")
	f.Var(quantity{&in.care.Rinse, "1min"}, "rinse", "how long one piece is rinsed, as your station knows it")
	f.IntVar(&in.care.RinsePlaces, "rinse-places", 0, "pieces that are rinsed at once; no limit, if left out")
	f.IntVar(&in.care.DryPlaces, "drying-places", 0, "pieces that dry at once; no limit, if left out")
	f.Var(quantity{&in.care.Changeover, "5min"}, "changeover", "from one wash to the next; 5min, if left out (common practice, no source)")
	f.BoolVar(&in.heavy, "heavy-alone", false, "heavy soil shares no wash with lighter soil")
	offer(cmd, "soil", []string{"light", "normal", "heavy"})
	return cmd
}

func (a *app) planOn(st *station.Station, in planFlags) error {
	x, err := a.snapshot(st)
	if err != nil {
		return err
	}
	items, err := a.planItems(in)
	if err != nil {
		return err
	}
	ask, err := a.planAsk(x, in)
	if err != nil {
		return err
	}
	ask.Batches = items.batches
	w, err := x.PlanWashes(ask)
	if err != nil {
		return refuse("input", "%s", err)
	}
	out := newPlanAnswer(x, w, items.never)
	if out.Cycles == 0 {
		return refuse("kept-out", "nothing goes in: %s", out.whys(w.First))
	}
	if a.flags.json {
		return a.printJSON(out)
	}
	return a.printPlan(x, w, out)
}

// planAsk puts what was typed into the words of the plan.
func (a *app) planAsk(x *advise.Snapshot, in planFlags) (advise.WashesAsk, error) {
	ask := advise.WashesAsk{Bath: in.bath, Set: in.set, Heavy: in.heavy, Care: in.care, Stop: within(searchTime)}
	cat, err := a.catalog()
	if err != nil {
		return ask, err
	}
	if ask.Baskets, err = in.baskets.baskets(cat); err != nil {
		return ask, err
	}
	if len(ask.Baskets)+len(x.Bath.Baskets) == 0 {
		return ask, refuse("no-basket", "no baskets are on file for bath %s: a gear officer adds them like bathside log basket --name deep --kind deep --holds mask=6,helmet=2, or give them here like --basket %s", x.Bath.ID, in.baskets.Type())
	}
	if ask.Needs, err = in.needs.needs(cat, x.Now, x.Times); err != nil {
		return ask, err
	}
	ask.Care.Dry, err = in.dry.spans(cat)
	return ask, err
}

// mostPlanned is the most of one item type in a plan, as of one in a wash.
const mostPlanned = 200

func checkCount(n int, of string) error {
	if n < 1 || n > mostPlanned {
		return refuse("input", "%d of %s is not a count: 1 to %d are allowed, like 12", n, quote(of), mostPlanned)
	}
	return nil
}
