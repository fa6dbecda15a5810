package bath_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
)

var rewrite = flag.Bool("rewrite", false, "rewrite the folded states in testdata/fold, after a new FoldVersion")

// TestFoldVersionHolds folds log books that were written once and compares the
// states with those of then. Stored checkpoints are such states: a fold that
// gives another one must have another FoldVersion, or consoles would go on from
// what no fold makes any more.
func TestFoldVersionHolds(t *testing.T) {
	books, err := filepath.Glob("testdata/fold/*.jsonl")
	if err != nil || len(books) == 0 {
		t.Fatalf("no log books to fold: %v", err)
	}
	for _, path := range books {
		t.Run(filepath.Base(path), func(t *testing.T) {
			state, err := bath.Fold(readLines(t, path))
			if err != nil {
				t.Fatal(err)
			}
			got, err := json.MarshalIndent(state, "", "  ")
			if err != nil {
				t.Fatal(err)
			}
			golden := strings.TrimSuffix(path, "l")
			want, version := readGolden(t, golden)
			switch diff := cmp.Diff(string(want), string(got)+"\n"); {
			case diff == "":
			case version == bath.FoldVersion:
				t.Errorf("the fold changed and FoldVersion is still %d: raise it in state.go, then run go test -rewrite here (-then +now)\n%s", version, diff)
			case *rewrite:
				if err := os.WriteFile(golden, append(got, '\n'), 0o644); err != nil {
					t.Fatal(err)
				}
			default:
				t.Errorf("folded by version %d, now %d: look at the change, then run go test -rewrite here (-then +now)\n%s", version, bath.FoldVersion, diff)
			}
		})
	}
}

// readGolden gives a state as it was written, and by which fold; version 0
// where there is none yet.
func readGolden(t *testing.T, path string) (text []byte, version int) {
	t.Helper()
	text, err := os.ReadFile(path)
	if os.IsNotExist(err) {
		return nil, 0
	}
	if err != nil {
		t.Fatal(err)
	}
	var s struct{ Fold int }
	if err := json.Unmarshal(text, &s); err != nil {
		t.Fatal(err)
	}
	return text, s.Fold
}

func readLines(t *testing.T, path string) (entries []bath.Entry) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i, line := range bytes.Split(bytes.TrimSpace(text), []byte("\n")) {
		var e bath.Entry
		if err := json.Unmarshal(line, &e); err != nil {
			t.Fatal(fmt.Errorf("line %d: %w", i+1, err))
		}
		entries = append(entries, e)
	}
	return entries
}
