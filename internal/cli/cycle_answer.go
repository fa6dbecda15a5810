package cli

import (
	"fmt"
	"math"

	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/units"
)

// cycleRefusal is one reason to keep the item out.
type cycleRefusal struct {
	ID  string `json:"id"`
	Say string `json:"say"`
}

// cycleAnswer is what cycle --json prints.
type cycleAnswer struct {
	Item         string             `json:"item"`
	Soil         load.Soil          `json:"soil"`
	Minutes      float64            `json:"minutes"`
	MinutesAtSet float64            `json:"minutes_at_set"`
	LongestMin   float64            `json:"longest_min"`
	Basket       catalog.Basket     `json:"basket"`
	Lid          catalog.Lid        `json:"lid"`
	Checks       []string           `json:"checks"`
	BathC        *units.Temperature `json:"bath_c,omitzero"` // absent: not measured
	SetC         units.Temperature  `json:"set_c"`
	LimitC       *units.Temperature `json:"limit_c"` // null: it never goes in
	LimitSource  string             `json:"limit_source"`
	Allowed      bool               `json:"allowed"`
	Refusals     []cycleRefusal     `json:"refusals"`
	Say          string             `json:"say"`

	limit string // as its source prints it
}

func newCycle(c load.Cycle, in load.Conditions, tag string) cycleAnswer {
	out := cycleAnswer{
		Item: c.Item.ID, Soil: c.Soil,
		Minutes: c.Minutes, MinutesAtSet: c.MinutesAtSet, LongestMin: c.Longest,
		Basket: c.Item.Basket, Lid: c.Item.Lid, Checks: []string{},
		SetC: in.Set, LimitSource: c.Item.Limit.Source,
		Allowed: c.Allowed && tag == "", Refusals: []cycleRefusal{}, Say: c.Say, limit: c.Item.Limit.Printed,
	}
	if out.limit != "" {
		whole := c.Item.Limit.Whole()
		out.LimitC = &whole
	}
	if !math.IsNaN(float64(in.Bath)) {
		out.BathC = &in.Bath
	}
	for _, check := range c.Item.Checks {
		out.Checks = append(out.Checks, check.Say)
	}
	if tag != "" {
		out.Refusals = append(out.Refusals, cycleRefusal{"red-tag", tag + ". Wake the gear officer: only they lift it."})
	}
	for _, r := range c.Refusals {
		out.Refusals = append(out.Refusals, cycleRefusal{r.ID, r.String()})
	}
	return out
}

// printCycle tells what keeps the item out before anything else, and no more
// about what never goes in.
func (a *app) printCycle(c cycleAnswer) error {
	if a.flags.json {
		return a.printJSON(c)
	}
	for _, r := range c.Refusals {
		fmt.Fprintln(a.text(), r.Say)
	}
	if c.limit == "" {
		return nil
	}
	fmt.Fprintf(a.text(), "%s, %s soil: %s\n", c.Item, c.Soil, c.Say)
	fmt.Fprintf(a.text(), "basket: %s; lid: %s; limit: %s (%s)\n", c.Basket, c.Lid, c.limit, c.LimitSource)
	for _, check := range c.Checks {
		fmt.Fprintln(a.text(), "check:", check)
	}
	return nil
}
