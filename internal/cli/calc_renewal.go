package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/renewal"
	"bathside/internal/units"
)

func (a *app) calcRenewal() *cobra.Command {
	var (
		costs renewal.Costs
		gains daysFlag
	)
	cmd := &cobra.Command{
		Use: "renewal", Short: "How many top-ups before a refill", Args: noWords,
		Long:    "The number of top-ups with the least cost a day in the long run. Costs are in one unit, which may be any: money, hours or jugs. It says nothing of whether a bath may be kept.",
		Example: "bathside calc renewal --refill 154.15 --topup 21.25 --gains 30,24,19.2,15.36,12.29",
		RunE:    func(*cobra.Command, []string) error { return a.sayRenewal(costs, gains) },
	}
	f := cmd.Flags()
	f.Var(quantity{&costs.Refill, "154.15"}, "refill", "what a refill costs, all counted: soap, water, heat, work, disposal")
	f.Var(quantity{&costs.TopUp, "21.25"}, "topup", "what a top-up costs, with its work")
	f.Var(&gains, "gains", "days that a refill lasts, then days that each top-up adds")
	require(cmd, "refill", "topup", "gains")
	return cmd
}

// stopIDs are the words for scripts of what keeps an answer from more top-ups.
var stopIDs = map[renewal.Stop]string{renewal.Dearer: "dearer", renewal.AtLimit: "at-limit", renewal.GainsEnd: "gains-end"}

func (a *app) sayRenewal(costs renewal.Costs, gains []float64) error {
	r, err := renewal.Best(costs, gains, renewal.Limits{})
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(struct {
			TopUps  int       `json:"best_topups"`
			PerDay  []float64 `json:"cost_per_day"`    // of none, one, two and so on
			Least   float64   `json:"least_gain_days"` // what a top-up must bring, and a little more
			Stop    string    `json:"stop"`
			StopSay string    `json:"stop_say"`
		}{r.TopUps, r.CostPerDay, r.LeastGainDays, stopIDs[r.Stop], r.Stop.String()})
	}
	for n, cost := range r.CostPerDay {
		fmt.Fprintf(a.text(), "%s, then a refill: %.2f a day\n", topUps(n), cost)
	}
	_, err = fmt.Fprintf(a.text(), "best: %s, then a refill; %s\na top-up pays where it brings more than %.1f days\n", topUps(r.TopUps), r.Stop, r.LeastGainDays)
	return err
}

func topUps(n int) string {
	if n == 1 {
		return "1 top-up"
	}
	return fmt.Sprintf("%d top-ups", n)
}

// daysFlag is --gains: 30,24,19.2.
type daysFlag []float64

func (d *daysFlag) String() string { return "" }
func (d *daysFlag) Type() string   { return "30,24,19.2" }

func (d *daysFlag) Set(text string) error {
	for part := range strings.SplitSeq(text, ",") {
		var days float64
		if err := units.Scan(&days, part); err != nil {
			return refuse("input", "%s is not a list of days: write it like 30,24,19.2", quote(text))
		}
		*d = append(*d, days)
	}
	return nil
}
