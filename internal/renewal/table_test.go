package renewal

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// readTable reads testdata/renewal/renewal.csv as value by quantity. Its first
// lines say where it is from.
func readTable(t *testing.T) map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "renewal", "renewal.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatalf("read renewal.csv: %v", err)
	}
	table := map[string]string{}
	for _, line := range lines[1:] {
		table[line[1]] = line[2]
	}
	return table
}

// number reads one value of the table.
func number(t *testing.T, table map[string]string, quantity string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(table[quantity], 64)
	if err != nil {
		t.Fatalf("renewal.csv, %s: %v", quantity, err)
	}
	return x
}

// The bath of renewal.csv: 48 of detergent, 0.90 of water, 1.75 of heat, 67.50
// of work and 36 of disposal to refill.
var tableCosts = Costs{Refill: 154.15, TopUp: 21.25}

// tableGains are the days that a refill and n top-ups bring there.
func tableGains(n int) []float64 {
	gains := []float64{30}
	for range n {
		gains = append(gains, gains[len(gains)-1]*0.8)
	}
	return gains
}

func best(t testing.TB, c Costs, gainDays []float64, l Limits) Answer {
	t.Helper()
	a, err := Best(c, gainDays, l)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func pays(t testing.TB, c Costs, gainDays, longRun float64) bool {
	t.Helper()
	yes, err := c.Pays(gainDays, longRun)
	if err != nil {
		t.Fatal(err)
	}
	return yes
}
