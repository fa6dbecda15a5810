package internal_test

import (
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestHouseFinds feeds the rules small trees that break them, and some that only look as if they did.
func TestHouseFinds(t *testing.T) {
	for _, c := range []struct {
		name, file, text string
		want             []string
	}{
		{"inward import", "internal/load/pack.go", `package load; import "bathside/internal/catalog"`, nil},
		{"outward import", "internal/chem/ph.go", `package chem; import "bathside/internal/bath"`, []string{
			"internal/chem/ph.go:1: internal/chem may not import bathside/internal/bath: of ours it may import only units; " +
				"chemistry needs quantities only"}},
		{"outward import for another system", "internal/chart/x_windows.go", `package chart; import "bathside/assets"`, []string{
			"internal/chart/x_windows.go:1: internal/chart may not import bathside/assets: of ours it may import nothing; " +
				"a chart draws any series and knows nothing of baths"}},
		{"outward import in a test", "internal/chem/ph_test.go", `package chem; import "bathside/internal/bath"`, nil},
		{"face past the station", "internal/console/root.go", `package console; import "bathside/internal/journal"`, []string{
			"internal/console/root.go:1: internal/console may not import bathside/internal/journal: of ours it may import " +
				"only station, advise, units, catalog, load, bath, roster, heat, plain, chart, guide; " +
				"a face comes in by station and advise and leans on no other face"}},
		{"database elsewhere", "internal/station/open.go", `package station; import "go.etcd.io/bbolt"`, []string{
			"internal/station/open.go:1: internal/station may not import go.etcd.io/bbolt: " +
				"only internal/journal knows the database"}},
		{"database at home", "internal/journal/open.go", `package journal; import "go.etcd.io/bbolt"`, nil},
		{"science on the machine", "internal/heat/fit.go", `package heat; import "os/exec"`, []string{
			"internal/heat/fit.go:1: internal/heat may not import os/exec: " +
				"a science does no I/O; let the caller read and hand over the values"}},
		{"science test reads its table", "internal/heat/fit_test.go", `package heat; import "os"`, nil},
		{"science asks the time", "internal/bath/fold.go", `package bath; import clock "time"; var now = clock.Now`, []string{
			"internal/bath/fold.go:1: internal/bath may not use time.Now: a science never asks the time; take now as an argument"}},
		{"science test asks the time", "internal/bath/fold_test.go", "package bath\nimport \"time\"\nvar d = time.Since(t0)", []string{
			"internal/bath/fold_test.go:3: internal/bath may not use time.Since: a science never asks the time; take now as an argument"}},
		{"benchmark asks the time", "internal/bath/fold_test.go",
			`package bath; import "time"; func BenchmarkFold() { time.Now() }`, nil},
		{"another Now", "internal/bath/fold.go", `package bath; import "time"; var d = time.Second * state.Now()`, nil},
		{"edge asks the time", "internal/station/open.go", `package station; import "time"; var now = time.Now`, nil},
		{"new package", "internal/pump/pump.go", `package pump`, []string{
			"internal/pump/pump.go: package internal/pump is not in the plan: add it to the table in internal/house_test.go, " +
				"with what it may import and why"}},
		{"folder of tests", "internal/house_test.go", `package internal_test; import "os"`, nil},
		{"file that go ignores", "internal/pump/testdata/pump.go", `package pump`, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			tree := fstest.MapFS{c.file: {Data: []byte(c.text)}, "cmd/bathside/main.go": {Data: []byte("package main")}}
			got, err := breaches(tree)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("breaches (-want +got):\n%s", diff)
			}
		})
	}
}

func TestHouseWantsSource(t *testing.T) {
	if _, err := breaches(fstest.MapFS{"README.md": {}}); err == nil {
		t.Error("a tree without Go files passed")
	}
}
