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
	f, err := os.Open(filepath.Join("..", "..", "testdata", "heat", name))
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
	var rows []row
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
