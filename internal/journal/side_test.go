package journal_test

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/journal"
)

func putSide(t testing.TB, j *journal.Journal, table string, records map[string]string) {
	t.Helper()
	err := j.Update(func(tx *journal.Tx) error {
		for key, data := range records {
			if err := tx.Side(table).Put(key, []byte(data)); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// side reads records; what is not there is "-".
func side(j *journal.Journal, table string, keys ...string) (got []string, err error) {
	err = j.View(func(tx *journal.Tx) error {
		for _, key := range keys {
			data, err := tx.Side(table).Get(key)
			if err != nil {
				return err
			}
			if data == nil {
				data = []byte("-")
			}
			got = append(got, string(data))
		}
		return nil
	})
	return got, err
}

func mustSide(t rapid.TB, j *journal.Journal, table string, keys ...string) []string {
	t.Helper()
	got, err := side(j, table, keys...)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestSideTablesMayChange(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	before := exported(t, j)
	if diff := cmp.Diff([]string{"-", "-"}, mustSide(t, j, "pins", "kim", "lee")); diff != "" {
		t.Errorf("before anything was put (-want +got):\n%s", diff)
	}
	putSide(t, j, "pins", map[string]string{"kim": "first", "lee": "", "ana": "gone soon"})
	putSide(t, j, "pins", map[string]string{"kim": "second"})
	putSide(t, j, "drafts", map[string]string{"kim": "elsewhere"})
	err := j.Update(func(tx *journal.Tx) error {
		return errors.Join(tx.Side("pins").Delete("ana"), tx.Side("pins").Delete("nobody"), tx.Side("none").Delete("x"))
	})
	if err != nil {
		t.Fatal(err)
	}
	again, err := journal.Open(j.Path())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"second", "", "-", "-"}, mustSide(t, again, "pins", "kim", "lee", "ana", "KIM")); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if after := exported(t, again); after != before {
		t.Errorf("the log changed:\n%s\nwas\n%s", after, before)
	}
}

func TestSideTablesStayBehind(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a", "b")
	putSide(t, j, "pins", map[string]string{"kim": "a-secret"})
	lines := exported(t, j)
	if strings.Contains(lines, "a-secret") {
		t.Error("it is in the export")
	}
	path := filepath.Join(t.TempDir(), "copy.db")
	if _, err := journal.Import(path, strings.NewReader(lines)); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(read(t, path), []byte("a-secret")) || !bytes.Contains(read(t, j.Path()), []byte("a-secret")) {
		t.Error("it is in the imported copy, or not in the original")
	}
}

func TestSideTablesAreOfTheTransaction(t *testing.T) {
	j := newJournal(t)
	putSide(t, j, "pins", map[string]string{"kim": "first"})
	refused := errors.New("refused")
	err := j.Update(func(tx *journal.Tx) error {
		if err := tx.Side("pins").Put("kim", []byte("second")); err != nil {
			return err
		}
		if got, err := tx.Side("pins").Get("kim"); err != nil || string(got) != "second" {
			t.Errorf("within it: got %q, %v", got, err)
		}
		return refused
	})
	if err != refused {
		t.Errorf("got %v", err)
	}
	if diff := cmp.Diff([]string{"first"}, mustSide(t, j, "pins", "kim")); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestSideTablesAreNotWrittenByAView(t *testing.T) {
	j := newJournal(t)
	for name, change := range map[string]func(journal.Side) error{
		"put":    func(s journal.Side) error { return s.Put("kim", nil) },
		"delete": func(s journal.Side) error { return s.Delete("kim") },
	} {
		err := j.View(func(tx *journal.Tx) error { return change(tx.Side("pins")) })
		if !errors.Is(err, journal.ErrReadOnly) {
			t.Errorf("%s: got %v, want ErrReadOnly", name, err)
		}
	}
}

func TestAKeyThatCannotBePutStoresNothing(t *testing.T) {
	j := newJournal(t)
	err := j.Update(func(tx *journal.Tx) error {
		_, err := tx.Append(entry("a"))
		_ = tx.Side("pins").Put("", []byte("x")) // a caller that looks away
		return err
	})
	if err == nil || len(all(t, j)) != 0 {
		t.Errorf("got %v and %d entries", err, len(all(t, j)))
	}
}

func TestBucketsOfTheJournalAreNoSideTables(t *testing.T) {
	j := newJournal(t)
	for _, name := range []string{"meta", "entries", "ids", "checkpoint"} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s was handed out", name)
				}
			}()
			_ = j.View(func(tx *journal.Tx) error { tx.Side(name); return nil })
		}()
	}
}

// Many records in no order, over several pages: newJournal looks at them all
// with Verify and with bbolt's own check.
func TestSideTableOfManyPages(t *testing.T) {
	j := newJournal(t)
	records := map[string]string{}
	for i := range 300 {
		records[fmt.Sprint("member ", i)] = strings.Repeat(fmt.Sprint(i, " "), 20)
	}
	putSide(t, j, "pins", records)
	putSide(t, j, "pins", records)
	for key, want := range records {
		if got := mustSide(t, j, "pins", key); got[0] != want {
			t.Fatalf("%s: got %q, want %q", key, got[0], want)
		}
	}
}

func TestVerifyFindsAChangedSideRecord(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	putSide(t, j, "pins", map[string]string{"kim": "first", "lee": "other"})
	putSide(t, j, "drafts", map[string]string{"kim": "first"})
	whole := read(t, j.Path())
	stored := boltValue(t, j.Path(), "pins", "kim")
	changed := bytes.Replace(stored, []byte("first"), []byte("fir5t"), 1)
	for name, put := range map[string][]byte{
		"changed":          changed,
		"of another":       boltValue(t, j.Path(), "pins", "lee"),
		"of another table": boltValue(t, j.Path(), "drafts", "kim"),
		"cut":              stored[:20],
		"emptied":          {},
	} {
		t.Run(name, func(t *testing.T) {
			path := copyOf(t, whole)
			if err := putRaw(path, "pins", []byte("kim"), put); err != nil {
				t.Fatal(err)
			}
			report, err := journal.Verify(path)
			const want = `the record "kim" of table pins does not match its own seal`
			if found := strings.Join(report.Findings, "\n"); !errors.Is(err, journal.ErrDamaged) || !strings.Contains(found, want) {
				t.Errorf("got %v, findings %q", err, report.Findings)
			}
			damaged, err := journal.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := side(damaged, "pins", "kim"); !errors.Is(err, journal.ErrDamaged) || !strings.Contains(err.Error(), want) {
				t.Errorf("read: got %v", err)
			}
			putSide(t, damaged, "pins", map[string]string{"kim": "anew"})
			mustVerify(t, path)
		})
	}
}
