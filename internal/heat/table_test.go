package heat

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// row is a line of a reference table: its columns by name.
type row map[string]float64

// readTable reads a table of testdata/heat. Its first lines say where it is
// from.
func readTable(t testing.TB, name string) []row {
	t.Helper()
	lines := readLines(t, "heat", name)
	var rows []row
	var err error
	for _, line := range lines[1:] {
		cells := row{}
		for i, cell := range line {
			if cells[lines[0][i]], err = strconv.ParseFloat(cell, 64); err != nil {
				t.Fatalf("read %s: %v", name, err)
			}
		}
		rows = append(rows, cells)
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}

// readBalance reads mass_balance.csv: its values by their ids.
func readBalance(t testing.TB) row {
	t.Helper()
	const id, value = 0, 3
	cells := row{}
	for _, line := range readLines(t, "balance", "mass_balance.csv")[1:] {
		x, err := strconv.ParseFloat(line[value], 64)
		if err != nil {
			t.Fatal(err)
		}
		cells[line[id]] = x
	}
	return cells
}

func readLines(t testing.TB, folder, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", folder, name))
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
	return lines
}
