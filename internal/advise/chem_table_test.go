package advise_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// table is a table of testdata/chem. Its first lines say where it is from.
type table struct {
	name  string
	lines []map[string]string // by the names of the columns
}

func readChem(t testing.TB, name string) table {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "chem", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("read %s: %d lines, %v", name, len(all), err)
	}
	ref := table{name: name}
	for _, cells := range all[1:] {
		line := map[string]string{}
		for i, cell := range cells {
			line[all[0][i]] = cell
		}
		ref.lines = append(ref.lines, line)
	}
	return ref
}

// line is the first one with these cells.
func (r table) line(t testing.TB, cells map[string]string) map[string]string {
	t.Helper()
search:
	for _, line := range r.lines {
		for column, cell := range cells {
			if line[column] != cell {
				continue search
			}
		}
		return line
	}
	t.Fatalf("%s has no line of %v", r.name, cells)
	return nil
}

func (r table) number(t testing.TB, line map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(line[column], 64)
	if err != nil {
		t.Fatalf("%s, column %s: %v", r.name, column, err)
	}
	return x
}
