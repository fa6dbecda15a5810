package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"bathside/assets"
	"bathside/internal/catalog"

	"github.com/google/go-cmp/cmp"
)

// Source: testdata/packing/planner_cases.jsonl, the best of each case proved
// outside this project. Each line goes in as it stands.
func TestCalcPackCases(t *testing.T) {
	text, err := os.ReadFile("../../testdata/packing/planner_cases.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	cases := 0
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cases++
		var want struct {
			ID     int
			Cycles int     `json:"opt_cycles"`
			Time   float64 `json:"opt_total_time"`
		}
		if err := json.Unmarshal([]byte(line), &want); err != nil {
			t.Fatal(err)
		}
		t.Run(fmt.Sprint(want.ID), func(t *testing.T) {
			var got struct {
				Cycles     int
				Time       float64 `json:"total_time"`
				LowerBound int     `json:"lower_bound_cycles"`
				Proved     bool
			}
			compute(t, []byte(line), &got, "pack")
			if got.Cycles != want.Cycles || got.Time != want.Time || got.LowerBound > want.Cycles || !got.Proved {
				t.Errorf("got %+v, want %d cycles, total time %g, proved", got, want.Cycles, want.Time)
			}
		})
	}
	if cases != 20 {
		t.Errorf("read %d cases, want 20", cases)
	}
}

// The flags of plan are the shipped item types, and none hides another flag.
func TestPlanHasAFlagForEachItemType(t *testing.T) {
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	var items, never []string
	for _, item := range cat.Items {
		items = append(items, item.ID)
	}
	for _, out := range cat.Excluded {
		never = append(never, out.ID)
	}
	if diff := cmp.Diff(items, planItemTypes) + cmp.Diff(never, planNever); diff != "" {
		t.Errorf("item types (-shipped +flags):\n%s", diff)
	}
	cmd := (&app{Process: Process{Getenv: os.Getenv}}).plan()
	for _, id := range append(items, never...) {
		if _, own := cmd.Flags().Lookup(id).Value.(oneCount); !own {
			t.Errorf("--%s is another flag", id)
		}
	}
}
