package chem

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"bathside/internal/units"
)

// reference is a table of testdata/chem. Its first lines say where it is from.
type reference struct {
	name  string
	lines []map[string]string // by the names of the columns
}

func readReference(t testing.TB, name string) reference {
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
	ref := reference{name: name}
	for _, cells := range all[1:] {
		line := map[string]string{}
		for i, cell := range cells {
			line[all[0][i]] = cell
		}
		ref.lines = append(ref.lines, line)
	}
	return ref
}

// number is the cell of a line as a number; a cell that is none fails the test.
func (r reference) number(t testing.TB, line map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(line[column], 64)
	if err != nil {
		t.Fatalf("%s, column %s: %v", r.name, column, err)
	}
	return x
}

// mustSolve is the solution of a mix that has one.
func mustSolve(t testing.TB, m Mix, at units.Temperature) Solution {
	t.Helper()
	s, err := Solve(m, at)
	if err != nil {
		t.Fatalf("%+v at %g °C: %v", m, float64(at), err)
	}
	return s
}

// checkValues are the numbers that check_values.csv expects at an id.
func checkValues(t testing.TB, id string) []float64 {
	t.Helper()
	for _, line := range readReference(t, "check_values.csv").lines {
		if line["id"] != id {
			continue
		}
		var numbers []float64
		for _, word := range strings.FieldsFunc(line["expected"], func(r rune) bool { return strings.ContainsRune(" /,;", r) }) {
			if x, err := strconv.ParseFloat(word, 64); err == nil {
				numbers = append(numbers, x)
			}
		}
		return numbers
	}
	t.Fatalf("check_values.csv has no %s", id)
	return nil
}

// must is what a call gives that cannot fail here.
func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
