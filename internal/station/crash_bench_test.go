package station_test

import (
	"runtime"
	"slices"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/demo"
	"bathside/internal/station"
)

// BenchmarkRecovery prints what the next program waits for the state of a log
// book of ten years, 55,000 lines, when the one before was killed while it
// wrote: the median and the worst in ms, and the median as a multiple of that
// when the one before closed the same file in order. The goal is 100 ms.
func BenchmarkRecovery(b *testing.B) {
	sc := newScene(b, "record", crash{0, 1, 20 * time.Millisecond, tenYears, recording, lookAtRecords})
	var y tally
	var killed, closed []time.Duration
	for b.Loop() {
		sc.kill(b, &y)
		killed = append(killed, recovery(b, sc.path))
		closeInOrder(b, sc.path)
		closed = append(closed, recovery(b, sc.path))
	}
	slices.Sort(killed)
	slices.Sort(closed)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	n := len(killed)
	b.ReportMetric(float64(killed[n/2])/float64(closed[n/2]), "x-closed")
	b.ReportMetric(ms(killed[n/2]), "ms/killed")
	b.ReportMetric(ms(killed[n-1]), "ms/worst")
}

// recovery starts without the garbage of what was done before, as a program
// does.
func recovery(b *testing.B, path string) time.Duration {
	runtime.GC()
	begun := time.Now()
	coldState(b, path)
	return time.Since(begun)
}

// tenYears is a log book of 55,000 lines, whose roster knows the victim too.
func tenYears(t testing.TB, path string) {
	t.Helper()
	if err := demo.BuildLarge(path, 55_000, noon, shipped()); err != nil {
		t.Fatal(err)
	}
	s := open(t, path)
	for _, m := range stateOf(t, s).Members {
		if m.Role == bath.Officer {
			write(t, s, station.Draft{By: m.Name, Body: &bath.Member{Name: crew, Initials: "LH"}})
			return
		}
	}
	t.Fatal("it has no gear officer")
}

func closeInOrder(b *testing.B, path string) {
	b.Helper()
	s, err := station.Open(path, station.Options{Now: atNoon})
	if err != nil {
		b.Fatal(err)
	}
	write(b, s, note("closed in order"))
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
}
