package cli

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"bathside/internal/load"
)

const packExample = `{"half_slots": 2, "max_baskets": 2, "mass_basket": 250, "mass_cycle": 450, "layer_cap": 272, "types": [{"area": 63, "mass": 22, "time": 4, "n": 9}]}`

func (a *app) calcPack() *cobra.Command {
	return &cobra.Command{
		Use: "pack", Short: "Pack things into as few cycles as can be", Args: noWords,
		Long: `The abstract core of a plan: things that take up floor and mass go into baskets, and baskets into cycles; as few cycles as can be, then the least total time. It reads one case from standard input and searches for about 2 s at most. It does not know that a thing may stay in too long: plan does.

A shallow basket takes one half slot and has one layer, a deep one takes two and has two. What is tall goes in deep baskets only and takes floor of both layers; what needs a lid shares no basket with what protrudes. A mass of 0 is no limit. Units are yours, and agree with each other.`,
		Example: "echo '" + packExample + "' | bathside calc pack",
		RunE:    func(*cobra.Command, []string) error { return a.sayPacking() },
	}
}

// packCase is a case as scripts keep them. What else stands beside the problem,
// its number and what is known of it, is passed over; a misspelt name is not.
type packCase struct {
	load.Problem
	ID            json.RawMessage `json:"id"`
	OptCycles     json.RawMessage `json:"opt_cycles"`
	OptTotalTime  json.RawMessage `json:"opt_total_time"`
	LowerBound    json.RawMessage `json:"lb_cycles"`
	LowerMinutes  json.RawMessage `json:"lb_time"`
	NodesSearched json.RawMessage `json:"nodes"`
}

// packAnswer is calc pack as JSON.
type packAnswer struct {
	Cycles int `json:"cycles"`
	load.Packing
}

func (a *app) sayPacking() error {
	p, err := a.readPackCase()
	if err != nil {
		return err
	}
	got, err := load.Pack(p, within(searchTime))
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(packAnswer{len(got.Cycles), got})
	}
	return a.printPacking(got)
}

func (a *app) readPackCase() (load.Problem, error) {
	const most = 1 << 20
	text, err := io.ReadAll(io.LimitReader(a.In, most+1))
	switch {
	case err != nil:
		return load.Problem{}, fmt.Errorf("read standard input: %w", err)
	case len(text) == 0:
		return load.Problem{}, refuse("missing", "no case was given on standard input: write it like %s", packExample)
	case len(text) > most:
		return load.Problem{}, refuse("input", "more than a megabyte is no case: give the types of one wash")
	}
	var in packCase
	if err := decodeStrictly(text, &in); err != nil {
		return load.Problem{}, refuse("input", "not a case (%s): write it like %s", err, packExample)
	}
	return in.Problem, nil
}

func (a *app) printPacking(p load.Packing) error {
	fmt.Fprintf(a.text(), "%s, total time %g: %s\n", count(len(p.Cycles), "cycle"), p.TotalTime, boundSay(p))
	for i, c := range p.Cycles {
		fmt.Fprintf(a.text(), "cycle %d, time %g\n", i+1, c.Time)
		for _, b := range c.Baskets {
			fmt.Fprintf(a.text(), "  %s:%s\n", basketWord(b.Deep, b.Lid), countsSay(b.Counts))
		}
	}
	return nil
}

// boundSay is how far from the best possible a packing is at most.
func boundSay(p load.Packing) string {
	switch over := len(p.Cycles) - p.LowerBound; {
	case p.Proved:
		return "the best possible, proved"
	case over == 0:
		return fmt.Sprintf("no fewer cycles are possible; a total time below %g is not either", p.LowerBoundTime)
	default:
		return fmt.Sprintf("at most %s from the best possible; fewer than %d are impossible", count(over, "cycle"), p.LowerBound)
	}
}

func basketWord(deep, lid bool) string {
	word := "shallow basket"
	if deep {
		word = "deep basket"
	}
	if lid {
		word += ", lid clipped"
	}
	return word
}

// countsSay lists how many of each type: " 2 of type 1, 1 of type 3".
func countsSay(counts []int) string {
	say := ""
	for i, n := range counts {
		if n == 0 {
			continue
		}
		if say != "" {
			say += ","
		}
		say += fmt.Sprintf(" %d of type %d", n, i+1)
	}
	return say
}

// count is "1 wash" or "2 washes".
func count(n int, thing string) string {
	switch {
	case n == 1:
		return "1 " + thing
	case thing == "wash":
		return fmt.Sprintf("%d washes", n)
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
