package journal_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/journal"
)

func TestAppendReturnsWhatGetReturns(t *testing.T) {
	j := newJournal(t)
	want := entry("a")
	want.Seq = 1
	var appended, got journal.Entry
	err := j.Update(func(tx *journal.Tx) (err error) {
		appended, err = tx.Append(entry("a"))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	err = j.View(func(tx *journal.Tx) (err error) {
		got, err = tx.Get(1)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, appended); diff != "" {
		t.Errorf("appended (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(appended, got); diff != "" {
		t.Errorf("read back (-appended +got):\n%s", diff)
	}
	if _, offset := got.At.Zone(); offset != -5*3600 {
		t.Errorf("offset of at: got %d s, want -18000 s", offset)
	}
}

// The chain is checked with nothing but SHA-256 (FIPS 180-4, as the standard
// library has it) and JSON (RFC 8259).
func TestEachEntryCarriesTheHashOfTheBytesBefore(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(3)...)
	mustAppend(t, j, "one-more")
	var out bytes.Buffer
	if err := j.Export(&out); err != nil {
		t.Fatal(err)
	}
	before := [32]byte{}
	for i, line := range bytes.Split(bytes.TrimSuffix(out.Bytes(), []byte("\n")), []byte("\n")) {
		var got struct {
			Prev string
			Seq  int
		}
		if err := json.Unmarshal(line, &got); err != nil {
			t.Fatal(err)
		}
		if want := hex.EncodeToString(before[:]); got.Prev != want || got.Seq != i+1 {
			t.Errorf("line %d: got seq %d, prev %s, want prev %s", i+1, got.Seq, got.Prev, want)
		}
		before = sha256.Sum256(line)
	}
	if head := mustVerify(t, j.Path()).Head; head != (journal.Head{Seq: 4, Hash: before}) {
		t.Errorf("head: got %d %s, want 4 %x", head.Seq, head.Hash, before)
	}
}

func TestAppendAgainStoresNothing(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a", "b")
	before, err := os.ReadFile(j.Path())
	if err != nil {
		t.Fatal(err)
	}
	again := entry("a")
	again.By = "somebody else"
	var got journal.Entry
	err = j.Update(func(tx *journal.Tx) (err error) {
		got, err = tx.Append(again)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(all(t, j)[0], got); diff != "" {
		t.Errorf("got another entry than the first (-first +got):\n%s", diff)
	}
	after, err := os.ReadFile(j.Path())
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(before, after) {
		t.Error("the file changed")
	}
}

func TestAppendRefuses(t *testing.T) {
	tests := map[string]func(*journal.Entry){
		"no ID":               func(e *journal.Entry) { e.ID = "" },
		"ID with a quote":     func(e *journal.Entry) { e.ID = `a"b` },
		"ID too long":         func(e *journal.Entry) { e.ID = string(bytes.Repeat([]byte("x"), 65)) },
		"no kind":             func(e *journal.Entry) { e.Kind = "" },
		"body that is broken": func(e *journal.Entry) { e.Body = json.RawMessage(`{"ph":`) },
		"body beyond a megabyte": func(e *journal.Entry) {
			e.Body = json.RawMessage(`"` + string(bytes.Repeat([]byte("x"), 1<<20)) + `"`)
		},
	}
	j := newJournal(t)
	for name, spoil := range tests {
		t.Run(name, func(t *testing.T) {
			e := entry("a")
			spoil(&e)
			err := j.Update(func(tx *journal.Tx) error {
				_, err := tx.Append(e)
				return err
			})
			if err == nil {
				t.Error("was stored")
			}
		})
	}
}

func TestUpdateStoresAllOrNothing(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	refused := errors.New("refused")
	err := j.Update(func(tx *journal.Tx) error {
		if _, err := tx.Append(entry("b")); err != nil {
			return err
		}
		return refused
	})
	if err != refused {
		t.Errorf("got %v, want fn's own error as it is", err)
	}
	if got := len(all(t, j)); got != 1 {
		t.Errorf("got %d entries, want 1", got)
	}
}

func TestPanicOfTheCallerReleasesTheFile(t *testing.T) {
	j := newJournal(t)
	func() {
		defer func() { _ = recover() }()
		_ = j.Update(func(*journal.Tx) error { panic("our own bug") })
	}()
	mustAppend(t, j, "a")
}

func TestViewCannotWrite(t *testing.T) {
	j := newJournal(t)
	err := j.View(func(tx *journal.Tx) error {
		_, err := tx.Append(entry("a"))
		return err
	})
	if !errors.Is(err, journal.ErrReadOnly) {
		t.Errorf("append: got %v, want ErrReadOnly", err)
	}
	err = j.View(func(tx *journal.Tx) error { return tx.SetCheckpoint(nil) })
	if !errors.Is(err, journal.ErrReadOnly) {
		t.Errorf("checkpoint: got %v, want ErrReadOnly", err)
	}
}

func TestReading(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, numbered(5)...)
	err := j.View(func(tx *journal.Tx) error {
		for _, seq := range []uint64{0, 6} {
			if _, err := tx.Get(seq); !errors.Is(err, journal.ErrNoEntry) {
				t.Errorf("entry %d: got %v, want ErrNoEntry", seq, err)
			}
		}
		if e, ok, err := tx.Find("id-0004"); err != nil || !ok || e.Seq != 4 {
			t.Errorf("find id-0004: got entry %d, %v, %v", e.Seq, ok, err)
		}
		if _, ok, err := tx.Find("id-0006"); err != nil || ok {
			t.Errorf("find id-0006: got %v, %v", ok, err)
		}
		var seqs []uint64
		for e, err := range tx.Since(3) {
			if err != nil {
				return err
			}
			seqs = append(seqs, e.Seq)
		}
		if diff := cmp.Diff([]uint64{4, 5}, seqs); diff != "" {
			t.Errorf("since 3 (-want +got):\n%s", diff)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestCheckpointBelongsToItsHead(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a", "b")
	if err := j.Update(func(tx *journal.Tx) error { return tx.SetCheckpoint([]byte("folded")) }); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, "c")
	err := j.View(func(tx *journal.Tx) error {
		second, err := tx.Raw(2)
		if err != nil {
			return err
		}
		got, ok := tx.Checkpoint()
		want := journal.Checkpoint{Seq: 2, Hash: sha256.Sum256(second), Data: []byte("folded")}
		if diff := cmp.Diff(want, got); diff != "" || !ok {
			t.Errorf("checkpoint, %v (-want +got):\n%s", ok, diff)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestNoCheckpointAtFirst(t *testing.T) {
	err := newJournal(t).View(func(tx *journal.Tx) error {
		if c, ok := tx.Checkpoint(); ok {
			t.Errorf("got %v", c)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestCreateNeverReplaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "notes.txt")
	if err := os.WriteFile(path, []byte("keep me"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Create(path); !errors.Is(err, journal.ErrExists) {
		t.Errorf("got %v, want ErrExists", err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "keep me" {
		t.Errorf("got %q, %v", got, err)
	}
}

// A killed process must not leave a journal without its first entries: there is
// none under that name before they are stored.
func TestCreateWithGivesTheFileItsNameOnceItIsFilled(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "station.db")
	refusal := errors.New("refused")
	_, err := journal.CreateWith(path, func(tx *journal.Tx) error {
		_, err := tx.Append(entry("a"))
		return errors.Join(err, refusal)
	})
	if left, _ := os.ReadDir(dir); !errors.Is(err, refusal) || len(left) != 0 {
		t.Errorf("refused: got %v, and %v is left", err, left)
	}
	j, err := journal.CreateWith(path, func(tx *journal.Tx) error {
		if _, err := os.Lstat(path); !errors.Is(err, os.ErrNotExist) {
			t.Errorf("the file has its name before it is filled: %v", err)
		}
		_, err := tx.Append(entry("a"))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := all(t, j); len(got) != 1 || got[0].ID != "a" || mustVerify(t, path).Entries != 1 {
		t.Errorf("got %v", got)
	}
}

func TestOfManyCreatorsOneWins(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "place")
	path := filepath.Join(dir, "station.db")
	const creators = 8
	results := make(chan error, creators)
	for range creators {
		go func() {
			_, err := journal.Create(path)
			results <- err
		}()
	}
	won := 0
	for range creators {
		switch err := <-results; {
		case err == nil:
			won++
		case !errors.Is(err, journal.ErrExists):
			t.Error(err)
		}
	}
	if won != 1 {
		t.Errorf("%d creators won, want 1", won)
	}
	if diff := cmp.Diff([]string{"station.db"}, names(t, dir)); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
	mustVerify(t, path)
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name())
	}
	return names
}
