package journal_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/journal"
)

func exported(t testing.TB, j *journal.Journal) string {
	t.Helper()
	var out strings.Builder
	if err := j.Export(&out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestExportImportExportIsEqual(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := newJournal(t)
		n := rapid.IntRange(1, 40).Draw(rt, "entries")
		err := j.Update(func(tx *journal.Tx) error {
			for i := range n {
				e := entry(fmt.Sprint("id-", i))
				e.By = rapid.String().Draw(rt, "by")
				body, err := json.Marshal(rapid.String().Draw(rt, "note"))
				if err != nil {
					return err
				}
				e.Body = body
				if _, err := tx.Append(e); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			rt.Fatal(err)
		}
		first := exported(t, j)
		path := filepath.Join(t.TempDir(), "copy.db")
		head, err := journal.Import(path, strings.NewReader(first))
		if err != nil {
			rt.Fatal(err)
		}
		if want := mustVerify(t, j.Path()).Head; head != want {
			rt.Errorf("head: got %v, want %v", head, want)
		}
		mustVerify(t, path)
		second, err := journal.Open(path)
		if err != nil {
			rt.Fatal(err)
		}
		if exported(t, second) != first {
			rt.Error("the second export differs")
		}
	})
}

// Batches are larger than most tests: one journal that needs several.
func TestImportOfManyLines(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(5100)...)
	want := exported(t, j)
	path := filepath.Join(t.TempDir(), "copy.db")
	if _, err := journal.Import(path, strings.NewReader(want)); err != nil {
		t.Fatal(err)
	}
	mustVerify(t, path)
	second, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if exported(t, second) != want {
		t.Error("the second export differs")
	}
}

func TestImportRefuses(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(5)...)
	lines := strings.SplitAfter(strings.TrimSuffix(exported(t, j), "\n"), "\n")
	tests := []struct {
		name   string
		change func(lines []string) []string
		want   string
	}{
		{"changed value", func(l []string) []string { l[2] = strings.Replace(l[2], "9.82", "9.92", 1); return l }, "line 4:"},
		{"changed seal", func(l []string) []string { l[2] = `{"prev":"` + otherDigit(l[2][9]) + l[2][10:]; return l }, "line 3:"},
		{"line left out", func(l []string) []string { return append(l[:1], l[2:]...) }, "line 2:"},
		{"first line left out", func(l []string) []string { return l[1:] }, "line 1:"},
		{"line twice", func(l []string) []string { return append(l[:2], l[1:]...) }, "line 3:"},
		{"lines swapped", func(l []string) []string { l[1], l[2] = l[2], l[1]; return l }, "line 2:"},
		{"not JSON", func(l []string) []string { l[4] = l[4][:40]; return l }, "line 5:"},
		{"another layout", func(l []string) []string { l[0] = strings.Replace(l[0], `"prev":`, `"prev": `, 1); return l }, "line 1:"},
		{"seq given twice", func(l []string) []string { l[0] = strings.Replace(l[0], `"by"`, `"seq":9,"by"`, 1); return l }, "line 1:"},
		{"nothing", func([]string) []string { return nil }, "nothing to import"},
		{"a line beyond all bounds", func(l []string) []string { return append(l, "\n", strings.Repeat("x", 2<<20)) }, "line 6:"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir()
			input := strings.Join(test.change(append([]string(nil), lines...)), "")
			_, err := journal.Import(filepath.Join(dir, "copy.db"), strings.NewReader(input))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want an error with %q", err, test.want)
			}
			if left := names(t, dir); len(left) != 0 {
				t.Errorf("left behind: %q", left)
			}
		})
	}
}

func otherDigit(digit byte) string {
	if digit == '0' {
		return "1"
	}
	return "0"
}

func TestImportTakesLinesThatPassedThroughWindows(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(3)...)
	path := filepath.Join(t.TempDir(), "copy.db")
	lines := strings.ReplaceAll(exported(t, j), "\n", "\r\n") + "\r\n"
	if _, err := journal.Import(path, strings.NewReader(lines)); err != nil {
		t.Fatal(err)
	}
	mustVerify(t, path)
}

func TestImportNeverReplaces(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	_, err := journal.Import(j.Path(), strings.NewReader(exported(t, j)))
	if !errors.Is(err, journal.ErrExists) {
		t.Errorf("got %v, want ErrExists", err)
	}
}

// A mirror keeps up entry by entry, and takes nothing out of turn.
func TestAppendRawMirrors(t *testing.T) {
	from, to := newJournal(t), newJournal(t)
	mustAppend(t, from, numbered(3)...)
	lines := strings.SplitAfter(exported(t, from), "\n")
	mirror := func(line string) error {
		return to.Update(func(tx *journal.Tx) error {
			_, err := tx.AppendRaw([]byte(strings.TrimSuffix(line, "\n")))
			return err
		})
	}
	if err := errors.Join(mirror(lines[0]), mirror(lines[1])); err != nil {
		t.Fatal(err)
	}
	for name, line := range map[string]string{"again": lines[1], "nothing": ""} {
		if err := mirror(line); !errors.Is(err, journal.ErrDamaged) {
			t.Errorf("%s: got %v, want ErrDamaged", name, err)
		}
	}
	if err := mirror(lines[2]); err != nil {
		t.Fatal(err)
	}
	if got, want := exported(t, to), exported(t, from); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A pager that waits for a key must not stop the crew.
func TestExportHoldsNothingWhileItWrites(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a", "b")
	var out bytes.Buffer
	err := j.Export(writerFunc(func(p []byte) (int, error) {
		mustAppend(t, j, "while-writing")
		return out.Write(p)
	}))
	if err != nil {
		t.Fatal(err)
	}
	if got := bytes.Count(out.Bytes(), []byte("\n")); got != 2 {
		t.Errorf("got %d lines, want the 2 that were there at the start", got)
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

// TestImportRefusesALineThatReadsTwoWays: nothing vouches for the last line, so
// whoever changed it could have it read one way here and another there.
func TestImportRefusesALineThatReadsTwoWays(t *testing.T) {
	j := newJournal(t)
	if err := appendTo(j, "one"); err != nil {
		t.Fatal(err)
	}
	whole := exported(t, j)
	for name, c := range map[string]struct{ old, new, say string }{
		"a name twice":         {`"kind":`, `"by":"another","kind":`, `"by" stands in it twice`},
		"in another case":      {`"kind":`, `"BY":"another","kind":`, `"BY" stands in it twice`},
		"a name in a body":     {`"body":`, `"body":{"ph":9,"ph":8},"more":`, `"ph" stands in it twice`},
		"deeper than an entry": {`"body":`, `"body":` + strings.Repeat("[", 40) + strings.Repeat("]", 40) + `,"more":`, "nested more than 32 deep"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "copy.db")
			_, err := journal.Import(path, strings.NewReader(strings.Replace(whole, c.old, c.new, 1)))
			if !errors.Is(err, journal.ErrDamaged) || !strings.Contains(err.Error(), c.say) {
				t.Errorf("got %v, want %q", err, c.say)
			}
			if _, err := journal.Open(path); !errors.Is(err, journal.ErrNotExist) {
				t.Errorf("it left a file: %v", err)
			}
		})
	}
}
