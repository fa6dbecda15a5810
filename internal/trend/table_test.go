package trend

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// readRows reads a table of testdata/trend: its head, and its rows as text. Its
// first lines say where it is from.
func readRows(t testing.TB, name string) (head []string, rows [][]string) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "trend", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatalf("read %s: %v", name, err)
	}
	if len(lines) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return lines[0], lines[1:]
}

func number(t testing.TB, cell string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// readColumns reads a table of numbers by the names of its columns.
func readColumns(t testing.TB, name string) map[string][]float64 {
	t.Helper()
	head, rows := readRows(t, name)
	columns := map[string][]float64{}
	for _, row := range rows {
		for i, cell := range row {
			columns[head[i]] = append(columns[head[i]], number(t, cell))
		}
	}
	return columns
}

// readCells reads a table whose first cells name its rows: the numbers by row,
// its names joined, and column.
func readCells(t testing.TB, name string, names int) map[string]map[string]float64 {
	t.Helper()
	head, rows := readRows(t, name)
	cells := map[string]map[string]float64{}
	for _, row := range rows {
		key := ""
		for _, cell := range row[:names] {
			key += cell + " "
		}
		cells[key] = map[string]float64{}
		for i, cell := range row[names:] {
			cells[key][head[names+i]] = number(t, cell)
		}
	}
	return cells
}

// alike compares numbers to within tol.
func alike(t *testing.T, what string, got, want []float64, tol float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: got %v, want %v", what, got, want)
	}
	for i, w := range want {
		if !(math.Abs(got[i]-w) <= tol) {
			t.Errorf("%s[%d]: got %.12g, want %.12g", what, i, got[i], w)
		}
	}
}
