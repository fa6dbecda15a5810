package cli

import (
	"fmt"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/station"
)

// gear holds what is done with the list of tagged gear as a whole. A single
// piece is registered, held, released or inspected by a line of its own: log
// gear, gear-hold, gear-release, inspect.
func (a *app) gear() *cobra.Command {
	cmd := parent("gear", "The list of tagged gear", a.gearList(), a.gearImport(), a.gearExport())
	cmd.Long = "Tags are for who wants single pieces followed: loads work with counts alone. One piece is registered with: bathside log gear --tag M-12 --item mask."
	return cmd
}

func (a *app) gearList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "Where each tagged piece is, and its dates", Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error {
				x, err := a.snapshot(st)
				if err != nil {
					return err
				}
				if a.flags.json {
					return a.printJSON(gearAnswer(x))
				}
				return a.printGear(x)
			})
		},
	}
}

func (a *app) printGear(x *advise.Snapshot) error {
	gear := x.Gear()
	if len(gear) == 0 {
		_, err := fmt.Fprintln(a.text(), "No gear is tagged here: loads are counted.")
		return err
	}
	w := tabwriter.NewWriter(a.text(), 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "tag\titem\tstands\twashes\tlast washed\tnext date")
	for _, g := range gear {
		last := "–"
		if wash, ok := g.LastWash(); ok {
			last = x.Date(wash.At)
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%d\t%s\t%s\n", g.Tag, g.Item, g.Where, g.Washes, last, nextDate(g))
	}
	return w.Flush()
}

// nextDate is the date that comes first, or why the piece is not in use.
func nextDate(g advise.GearLine) string {
	switch {
	case g.Gone != "":
		return g.Gone
	case g.Hold != nil:
		return g.Hold.Why
	case len(g.Clocks) == 0:
		return "–"
	case g.Clocks[0].Over:
		return "OVER: " + g.Clocks[0].Say
	}
	return g.Clocks[0].Say
}

// gearJSON is a piece of gear as gear list writes it.
type gearJSON struct {
	Tag        string      `json:"tag"`
	Item       string      `json:"item"`
	Model      string      `json:"model,omitzero"`
	Serial     string      `json:"serial,omitzero"`
	Made       string      `json:"made,omitzero"`
	IssuedTo   string      `json:"issued_to,omitzero"`
	Stands     string      `json:"stands"`
	Washes     int         `json:"washes"`
	LastWashed time.Time   `json:"last_washed,omitzero"`
	Inspected  *time.Time  `json:"inspected,omitzero"`
	HeldWhy    string      `json:"held_why,omitzero"`
	Clocks     []clockJSON `json:"clocks"`
}

type clockJSON struct {
	ID     string    `json:"id"`
	Due    time.Time `json:"due,omitzero"`
	Over   bool      `json:"over"`
	Say    string    `json:"say"`
	Source string    `json:"source"`
}

func gearAnswer(x *advise.Snapshot) any {
	out := []gearJSON{}
	for _, g := range x.Gear() {
		j := gearJSON{
			Tag: g.Tag, Item: g.Item, Model: g.Model, Serial: g.Serial, IssuedTo: g.IssuedTo,
			Stands: g.Where, Washes: g.Washes, Inspected: g.Inspected, Clocks: []clockJSON{},
		}
		if g.Made.Year > 0 {
			j.Made = g.Made.String()
		}
		if wash, ok := g.LastWash(); ok {
			j.LastWashed = wash.At
		}
		if g.Hold != nil {
			j.HeldWhy = g.Hold.Why
		}
		for _, c := range g.Clocks {
			j.Clocks = append(j.Clocks, clockJSON{c.ID, c.Due, c.Over, c.Say, c.Source})
		}
		out = append(out, j)
	}
	return map[string][]gearJSON{"gear": out}
}
