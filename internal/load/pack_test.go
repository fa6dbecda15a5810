package load_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bathside/internal/load"
)

// provedCase is a problem with the best there is.
type provedCase struct {
	load.Problem
	ID        int     `json:"id"`
	Cycles    int     `json:"opt_cycles"`
	TotalTime float64 `json:"opt_total_time"`
}

// packingLines reads a file of testdata/packing without its source line.
func packingLines(t testing.TB, name string) []string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "packing", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var lines []string
	for in := bufio.NewScanner(f); in.Scan(); {
		if !strings.HasPrefix(in.Text(), "#") {
			lines = append(lines, in.Text())
		}
	}
	if len(lines) == 0 {
		t.Fatalf("%s has no lines", name)
	}
	return lines
}

func provedCases(t testing.TB) []provedCase {
	t.Helper()
	var cases []provedCase
	for _, line := range packingLines(t, "planner_cases.jsonl") {
		var c provedCase
		if err := json.Unmarshal([]byte(line), &c); err != nil {
			t.Fatal(err)
		}
		cases = append(cases, c)
	}
	return cases
}

// binCases reads binpack1: bins are cycles of one layer, and all take a minute.
func binCases(t testing.TB) []provedCase {
	t.Helper()
	in := strings.NewReader(strings.Join(packingLines(t, "binpack1_u120.txt"), "\n"))
	read := func(to ...any) {
		if _, err := fmt.Fscan(in, to...); err != nil {
			t.Fatal(err)
		}
	}
	var n int
	read(&n)
	cases := make([]provedCase, n)
	for i := range cases {
		c := provedCase{ID: i, Problem: load.Problem{HalfSlots: 1, MaxBaskets: 1}}
		var name string
		var things int
		read(&name, &c.LayerCap, &things, &c.Cycles)
		c.TotalTime = float64(c.Cycles)
		bySize := map[int]int{}
		for range things {
			var size int
			read(&size)
			bySize[size]++
		}
		for size := range c.LayerCap + 1 {
			if bySize[size] > 0 {
				c.Types = append(c.Types, load.Type{Area: size, Time: 1, N: bySize[size]})
			}
		}
		cases[i] = c
	}
	return cases
}

// atMost is a budget of questions.
func atMost(n int) func() bool {
	return func() bool { n--; return n < 0 }
}

// The best of each case is proved outside this project: planner_cases.jsonl
// and OR-Library's binpack1, both in testdata/packing.
func TestPackReachesTheProvedBest(t *testing.T) {
	for name, cases := range map[string][]provedCase{"planner": provedCases(t), "binpack1": binCases(t)} {
		if len(cases) != 20 {
			t.Fatalf("%s: read %d cases, want 20", name, len(cases))
		}
		for _, c := range cases {
			t.Run(fmt.Sprint(name, " ", c.ID), func(t *testing.T) {
				got, err := load.Pack(c.Problem, atMost(20_000))
				if err != nil {
					t.Fatal(err)
				}
				checkPacking(t, c.Problem, got)
				if len(got.Cycles) != c.Cycles || got.TotalTime != c.TotalTime {
					t.Errorf("got %d cycles, %v min; want %d, %v", len(got.Cycles), got.TotalTime, c.Cycles, c.TotalTime)
				}
				if !got.Proved {
					t.Error("not proved")
				}
			})
		}
	}
}
