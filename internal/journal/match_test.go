package journal_test

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/journal"
)

// stored puts text into a new file.
func stored(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// More than one batch of lines.
func TestABackupAndAnExportAreTheBeginning(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(1100)...)
	backup, export := copyOf(t, read(t, j.Path())), stored(t, exported(t, j))
	windows := stored(t, strings.ReplaceAll(exported(t, j), "\n", "\r\n")+"\r\n")
	mustAppend(t, j, "a", "b", "c")
	for name, other := range map[string]string{"backup": backup, "export": export, "export that passed through Windows": windows, "itself": j.Path()} {
		t.Run(name, func(t *testing.T) {
			want := journal.Match{Here: 1103, There: 1100, Same: 1100}
			if name == "itself" {
				want.There, want.Same = 1103, 1103
			}
			got, err := j.MatchFile(other)
			if diff := cmp.Diff(want, got); err != nil || diff != "" || !got.Whole() {
				t.Errorf("%v (-want +got):\n%s", err, diff)
			}
		})
	}
}

func TestWhereTwoRecordsPart(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(6)...)
	lines := strings.SplitAfter(exported(t, j), "\n")[:6]
	another := newJournal(t) // the same to line 2
	mustAppend(t, another, "id-0001", "id-0002", "other", "id-0004")
	longer := newJournal(t)
	mustAppend(t, longer, numbered(9)...)
	change := func(line int, old, with string) string {
		changed := slices.Clone(lines)
		changed[line-1] = strings.Replace(changed[line-1], old, with, 1)
		return strings.Join(changed, "")
	}
	tests := []struct {
		name  string
		lines string
		want  journal.Match
	}{
		{"a line changed", change(3, "9.82", "9.28"), journal.Match{Here: 6, There: 6, Same: 2, Broken: 4}},
		{"the last line changed", change(6, "9.82", "9.28"), journal.Match{Here: 6, There: 6, Same: 5}},
		{"a seal changed", change(2, `{"prev":"`, `{"prev":"00`), journal.Match{Here: 6, There: 6, Same: 1, Broken: 2}},
		{"a line left out", lines[0] + lines[2] + lines[3], journal.Match{Here: 6, There: 3, Same: 1, Broken: 2}},
		{"another history", exported(t, another), journal.Match{Here: 6, There: 4, Same: 2}},
		{"more lines than here", exported(t, longer), journal.Match{Here: 6, There: 9, Same: 6}},
		{"nothing", "", journal.Match{Here: 6}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := j.MatchFile(stored(t, test.lines))
			if err != nil {
				if test.lines != "" || !errors.Is(err, journal.ErrNotOurs) {
					t.Fatal(err)
				}
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
	if got, err := j.MatchFile(another.Path()); err != nil || got.Same != 2 || got.Whole() {
		t.Errorf("another log book: got %+v, %v", got, err)
	}
}

func TestMatchFileRefuses(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(40)...)
	bad := copyOf(t, read(t, j.Path()))
	if err := putRaw(bad, "entries", []byte(key(7)), nil); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		path string
		want error
	}{
		"text":             {stored(t, "Dear Ana,\nthe bath is fine\n"), journal.ErrNotOurs},
		"one endless line": {stored(t, "{"+strings.Repeat("x", 3<<20)), journal.ErrNotOurs},
		"missing":          {filepath.Join(t.TempDir(), "none"), journal.ErrNotExist},
		"damaged backup":   {bad, journal.ErrDamaged},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := j.MatchFile(c.path); !errors.Is(err, c.want) {
				t.Errorf("got %v, want %v", err, c.want)
			}
		})
	}
}

// The seal of a line is the head as it was when the line was the newest, which
// is what was printed then.
func TestMatchSeal(t *testing.T) {
	j := newJournal(t)
	seals := []string{mustVerify(t, j.Path()).Head.Hash.String()}
	for _, id := range numbered(5) {
		mustAppend(t, j, id)
		seals = append(seals, mustVerify(t, j.Path()).Head.Hash.String())
	}
	for line, seal := range seals {
		for _, digits := range []string{seal, seal[:8], seal[:16]} {
			found, here, err := j.MatchSeal(digits)
			if err != nil || !slices.Equal(found, []uint64{uint64(line)}) || here != 5 {
				t.Errorf("line %d, %s: got %v of %d, %v", line, digits, found, here, err)
			}
		}
	}
	wrong := otherDigit(seals[3][0]) + seals[3][1:]
	if found, _, err := j.MatchSeal(wrong); err != nil || len(found) > 0 {
		t.Errorf("got %v, %v, want none", found, err)
	}
	if found, _, err := j.MatchSeal(""); err != nil || len(found) != 6 {
		t.Errorf("no digits fit every line: got %v, %v", found, err)
	}
}

func TestSealDigits(t *testing.T) {
	whole := strings.Repeat("0123456789abcdef", 4)
	for text, want := range map[string]string{
		whole:                  whole,
		strings.ToUpper(whole): whole,
		"3F9A 0c52-d1e4":       "3f9a0c52d1e4",
		"3f9a0c52":             "3f9a0c52",
		"3f9a0c5":              "",
		whole + "0":            "",
		"3f9a0c5z":             "",
		"":                     "",
	} {
		if got, ok := journal.SealDigits(text); got != want || ok != (want != "") {
			t.Errorf("%q: got %q, %v, want %q", text, got, ok, want)
		}
	}
}

// A chain that was made anew, head and all, holds together. Only another
// record of the journal shows it, and where it begins.
func TestARebuiltChainIsFoundOnlyAgainstAnotherRecord(t *testing.T) {
	const lines, tries = 30, 20
	j := newJournal(t)
	mustAppend(t, j, numbered(lines)...)
	seal := mustVerify(t, j.Path()).Head.Hash
	before := exported(t, j)
	r := rand.New(rand.NewPCG(8, 0))
	for range tries {
		first := 1 + r.IntN(lines)
		path := filepath.Join(t.TempDir(), "anew.db")
		if _, err := journal.Import(path, strings.NewReader(rebuilt(before, first))); err != nil {
			t.Fatal(err)
		}
		mustVerify(t, path)
		anew, err := journal.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		m, err := anew.MatchFile(j.Path())
		if want := (journal.Match{Here: lines, There: lines, Same: uint64(first - 1)}); err != nil || m != want {
			t.Errorf("made anew from line %d: got %+v, %v", first, m, err)
		}
		if found, _, err := anew.MatchSeal(seal.String()[:16]); err != nil || len(found) > 0 {
			t.Errorf("made anew from line %d: the old seal is that of %v, %v", first, found, err)
		}
	}
	t.Logf("%d chains made anew: each whole in itself, and each found by a backup and by a seal number", tries)
}

// rebuilt changes an exported line and makes all after it fit again.
func rebuilt(export string, first int) string {
	lines := strings.Split(strings.TrimSuffix(export, "\n"), "\n")
	lines[first-1] = strings.Replace(lines[first-1], "9.82", "9.28", 1)
	for i := first; i < len(lines); i++ {
		lines[i] = fmt.Sprintf(`{"prev":"%x%s`, sha256.Sum256([]byte(lines[i-1])), lines[i][len(`{"prev":"`)+64:])
	}
	return strings.Join(lines, "\n") + "\n"
}
