package trend

import (
	"fmt"
	"sync"
	"testing"
)

// score sums up forecasts against what came.
type score struct{ n, covered, pinball, far, falseAlarms, near, misses float64 }

// add scores three dates against the truth, all in days from now.
func (s *score) add(q10, q50, q90, truth float64) {
	s.n++
	s.covered += claim(q10 <= truth && truth <= q90)
	s.pinball += (pinball(0.1, q10, truth) + pinball(0.5, q50, truth) + pinball(0.9, q90, truth)) / 3
	s.far += claim(truth > 21)
	s.falseAlarms += claim(truth > 21 && q50 <= 7)
	s.near += claim(truth <= 7)
	s.misses += claim(truth <= 7 && q10 > 7)
}

func pinball(p, q, truth float64) float64 { return max(p*(truth-q), (p-1)*(truth-q)) }

func claim(holds bool) float64 {
	if holds {
		return 1
	}
	return 0
}

// cells are the figures by the columns of forecast_scores.csv. False alarms are
// counted among baths far from their limit, misses among those near.
func (s *score) cells() map[string]float64 {
	return map[string]float64{
		"cover80": s.covered / s.n, "pinball": s.pinball / s.n,
		"false_alarm": s.falseAlarms / max(1, s.far), "miss": s.misses / max(1, s.near),
	}
}

// The names of the models in forecast_scores.csv.
const (
	ours     = "robust_bayes_days_loads"
	onDays   = "ols_days"
	onSlopes = "theilsen_boot"
)

// judge scores models on the same made-up baths with n readings each.
func judge(v variant, n, baths int, models ...string) map[string]*score {
	d, again := newDice(uint64(n), 1), newDice(uint64(n), 2)
	scores := map[string]*score{}
	for _, m := range models {
		scores[m] = &score{}
	}
	for range baths {
		b, in := draw(d, v, n)
		truth := b.truth()
		for m, s := range scores {
			q10, q50, q90 := model(m, again, in)
			s.add(q10, q50, q90, truth)
		}
	}
	return scores
}

func model(name string, d dice, in Input) (q10, q50, q90 float64) {
	switch name {
	case onDays:
		return leastDates(in)
	case onSlopes:
		return theilSenDates(d, in)
	}
	f := in.fit().Forecast()
	return f.Q10, f.Q50, f.Q90
}

// Source: forecast_scores.csv, the rows of the same model. The tolerances are
// the goal: 0.02 for coverage, 0.25 days for pinball.
func TestForecastIsAsGoodAsInTheTable(t *testing.T) {
	const full = 2 // G3
	table := readCells(t, "forecast_scores.csv", 3)
	for _, n := range []int{3, 5, 8, 15} {
		t.Run(fmt.Sprint(n, " readings"), func(t *testing.T) {
			t.Parallel()
			want := table[fmt.Sprintf("%s %d %s ", variants[full].name, n, ours)]
			got := judge(variants[full], n, 2500, ours)[ours].cells()
			alike(t, "coverage", []float64{got["cover80"]}, []float64{want["cover80"]}, 0.02)
			alike(t, "pinball", []float64{got["pinball"]}, []float64{want["pinball"]}, 0.25)
		})
	}
}

// The goal: with three past fills, 3.9 at most. The past fills are read weekly.
func TestHistorySharpensTheForecast(t *testing.T) {
	const full, baths = 2, 1500
	d := newDice(3)
	var with, without score
	for range baths {
		b, in := draw(d, variants[full], 5)
		truth := b.truth()
		q := in.fit().Forecast()
		without.add(q.Q10, q.Q50, q.Q90, truth)
		var err error
		if in.Prior, err = History(b.past(d, 3)); err != nil {
			t.Fatal(err)
		}
		q = in.fit().Forecast()
		with.add(q.Q10, q.Q50, q.Q90, truth)
	}
	if got, before := with.cells()["pinball"], without.cells()["pinball"]; !(got <= 3.9 && before > 4.5) {
		t.Errorf("pinball: got %.2f with history and %.2f without, want at most 3.9 and the table's 5.2", got, before)
	}
	if got := with.cells()["cover80"]; !(got > 0.8 && got < 0.92) {
		t.Errorf("coverage: got %.3f, want no less than 0.8, and no show of doubt", got)
	}
}

// BenchmarkModels prints how this package and two plain models do on made-up
// baths of every variant, each beside the reference table.
func BenchmarkModels(b *testing.B) {
	const baths = 2000
	table := readCells(b, "forecast_scores.csv", 3)
	for range b.N {
		scores := map[string]map[string]float64{}
		var work sync.WaitGroup
		var mu sync.Mutex
		for _, v := range variants {
			for _, n := range []int{3, 5, 8, 15} {
				work.Go(func() {
					for m, s := range judge(v, n, baths, ours, onDays, onSlopes) {
						mu.Lock()
						scores[fmt.Sprintf("%s %d %s ", v.name, n, m)] = s.cells()
						mu.Unlock()
					}
				})
			}
		}
		work.Wait()
		printScores(scores, table)
	}
}

func printScores(scores, table map[string]map[string]float64) {
	fmt.Printf("\n%-16s %2s  %-24s %15s %15s %15s %15s   (each: here, table)\n",
		"baths", "n", "model", "cover 80 %", "pinball", "false alarm", "miss")
	for _, v := range variants {
		for _, n := range []int{3, 5, 8, 15} {
			for _, m := range []string{ours, onDays, onSlopes} {
				key := fmt.Sprintf("%s %d %s ", v.name, n, m)
				fmt.Printf("%-16s %2d  %-24s", v.name, n, m)
				for _, column := range []string{"cover80", "pinball", "false_alarm", "miss"} {
					fmt.Printf(" %7.3f %7.3f", scores[key][column], table[key][column])
				}
				fmt.Println()
			}
		}
	}
}
