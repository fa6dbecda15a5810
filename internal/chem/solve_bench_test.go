package chem

import (
	"testing"

	"bathside/internal/units"
)

// halvings finds the pH at one ionic strength by 60 bisections: one pass of the
// textbook way, which repeats it some five times.
func halvings(m Mix, t units.Temperature, ionic float64) (b balance, ph float64) {
	k := at(t)
	b = balance{k: &k, mix: m, ladders: m.ladders()}
	b.ionic(ionic)
	lo, hi := float64(leastPH), mostPH
	for range 60 {
		if mid := (lo + hi) / 2; b.charge(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return b, lo
}

// against runs f as the benchmark and reports its time as a multiple of one pass
// of halvings, measured in the same run.
func against(b *testing.B, f func() error) {
	const rounds = 2000
	b.ResetTimer()
	for range rounds {
		halvings(mixedBath(0.02), 50, 0.07)
	}
	baseline := b.Elapsed().Seconds() / rounds
	b.ReportAllocs()
	for b.Loop() {
		if err := f(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/baseline, "x-baseline")
}

func BenchmarkSolve(b *testing.B) {
	against(b, func() error { _, err := Solve(mixedBath(0.02), 50); return err })
}

func BenchmarkAmount(b *testing.B) {
	against(b, func() error { _, err := Amount(mixedBath(0), Mix{Acid: 1}, 10.1, 50); return err })
}
