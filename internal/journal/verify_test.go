package journal_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"

	"bathside/internal/journal"
)

// sample is a journal with everything in it: several pages, an entry that
// takes more than one page, a checkpoint and a side table.
func sample(t testing.TB) *journal.Journal {
	t.Helper()
	j := newJournal(t)
	mustAppend(t, j, numbered(40)...)
	err := j.Update(func(tx *journal.Tx) error {
		long := entry("long")
		long.Body = json.RawMessage(`{"note":"` + strings.Repeat("foam on the floor, ", 500) + `"}`)
		if _, err := tx.Append(long); err != nil {
			return err
		}
		return tx.SetCheckpoint([]byte("folded"))
	})
	if err != nil {
		t.Fatal(err)
	}
	putSide(t, j, "pins", map[string]string{"kim": "first"})
	mustAppend(t, j, "last")
	return j
}

// copyOf puts bytes into a new file which nothing checks afterwards.
func copyOf(t testing.TB, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "copy.db")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t testing.TB, path string) []byte {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func TestVerifyFindsWhatWasDone(t *testing.T) {
	j := sample(t)
	whole := read(t, j.Path())
	raw := func(seq uint64) (stored []byte) {
		err := j.View(func(tx *journal.Tx) (err error) {
			stored, err = tx.Raw(seq)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return stored
	}
	digit := bytes.Replace(raw(7), []byte("9.82"), []byte("9.28"), 1)
	tests := []struct {
		name   string
		bucket string
		put    map[string][]byte // nil deletes
		want   string
	}{
		{"digit changed", "entries", kv(7, digit), "entry 7 does not match the seal stored in entry 8"},
		{"newest changed", "entries", kv(42, bytes.Replace(raw(42), []byte("9.82"), []byte("9.28"), 1)), "entry 42 does not match the seal stored in the head"},
		{"not JSON", "entries", kv(7, raw(7)[:200]), "entry 7 is not valid JSON"},
		{"emptied", "entries", kv(7, []byte{}), "entry 7 is not laid out as an entry is"},
		{"removed", "entries", kv(7, nil), "entry 7 is missing"},
		{"several removed", "entries", map[string][]byte{key(7): nil, key(8): nil, key(9): nil}, "entries 7 to 9 are missing"},
		{"first removed", "entries", kv(1, nil), "entry 1 is missing"},
		{"tail removed", "entries", map[string][]byte{key(41): nil, key(42): nil}, "entries 41 to 42 are missing"},
		{"swapped", "entries", map[string][]byte{key(7): raw(8), key(8): raw(7)}, "entry 7 says that it is entry 8"},
		{"added", "entries", kv(43, raw(42)), "entry 43 stands beyond the head, which names entry 42"},
		{"head set back", "meta", map[string][]byte{"head": head(41, raw(41))}, "entry 42 stands beyond the head, which names entry 41"},
		{"head of another", "meta", map[string][]byte{"head": head(42, raw(41))}, "entry 42 does not match the seal stored in the head"},
		{"head cut", "meta", map[string][]byte{"head": []byte("x")}, "the head cannot be read"},
		{"format changed", "meta", map[string][]byte{"format": []byte("bathsidd-journal/1")}, "the format cannot be read"},
		{"ID of the file changed", "meta", map[string][]byte{"id": []byte("x")}, "the ID that the file was given"},
		{"another key beside the head", "meta", map[string][]byte{"note": []byte("x")}, "a key in bucket meta that does not belong there"},
		{"ID removed", "ids", map[string][]byte{"id-0007": nil}, "entry 7 is not in the index of IDs"},
		{"ID of another", "ids", map[string][]byte{"id-0007": []byte(key(8))}, "the index of IDs names entry 8 twice"},
		{"ID of none", "ids", map[string][]byte{"id-9999": []byte(key(99))}, "the index of IDs names entry 99, which is not there"},
		{"ID beyond all", "ids", map[string][]byte{"id-9999": []byte(key(1 << 60))}, "the index of IDs names entry 1152921504606846976"},
		{"checkpoint renamed", "checkpoint", map[string][]byte{"state": nil, "statf": []byte("x")}, "a key in bucket checkpoint that does not belong there"},
		{"checkpoint changed", "checkpoint", map[string][]byte{"state": []byte("x")}, "the checkpoint does not match its own seal"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			path := copyOf(t, whole)
			for k, v := range test.put {
				if err := putRaw(path, test.bucket, []byte(k), v); err != nil {
					t.Fatal(err)
				}
			}
			report, err := journal.Verify(path)
			if !errors.Is(err, journal.ErrDamaged) {
				t.Errorf("got %v, want ErrDamaged", err)
			}
			if found := strings.Join(report.Findings, "\n"); !strings.Contains(found, test.want) {
				t.Errorf("got findings\n%s\nwant %q", found, test.want)
			}
		})
	}
}

func key(seq uint64) string { return string(binary.BigEndian.AppendUint64(nil, seq)) }

func kv(seq uint64, raw []byte) map[string][]byte { return map[string][]byte{key(seq): raw} }

func head(seq uint64, raw []byte) []byte {
	hash := sha256.Sum256(raw)
	return append([]byte(key(seq)), hash[:]...)
}

// A tail that was changed must not become the ground of new entries.
func TestDamagedTailIsNotWrittenOn(t *testing.T) {
	j := sample(t)
	path := copyOf(t, read(t, j.Path()))
	if err := putRaw(path, "entries", []byte(key(42)), nil); err != nil {
		t.Fatal(err)
	}
	before := read(t, path)
	damaged, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := appendTo(damaged, "new"); !errors.Is(err, journal.ErrDamaged) {
		t.Errorf("got %v, want ErrDamaged", err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the file was changed")
	}
}

func TestVerifyFindsAnyFlippedBitOfAnEntry(t *testing.T) {
	j := sample(t)
	whole := read(t, j.Path())
	var stored [][]byte
	for _, line := range strings.Split(strings.TrimSuffix(exported(t, j), "\n"), "\n") {
		stored = append(stored, []byte(line))
	}
	draw := func(rt *rapid.T) (seq int, flipped []byte) {
		seq = rapid.IntRange(1, len(stored)).Draw(rt, "entry")
		flipped = bytes.Clone(stored[seq-1])
		bit := rapid.IntRange(0, 8*len(flipped)-1).Draw(rt, "bit")
		flipped[bit/8] ^= 1 << (bit % 8)
		return seq, flipped
	}
	found := func(rt *rapid.T, path string) {
		if report, err := journal.Verify(path); !errors.Is(err, journal.ErrDamaged) {
			rt.Errorf("got %v, findings %q", err, report.Findings)
		}
	}
	t.Run("stored through bbolt", rapid.MakeCheck(func(rt *rapid.T) {
		seq, flipped := draw(rt)
		path := copyOf(t, whole)
		if err := putRaw(path, "entries", []byte(key(uint64(seq))), flipped); err != nil {
			rt.Fatal(err)
		}
		found(rt, path)
	}))
	t.Run("in the bytes of the file", rapid.MakeCheck(func(rt *rapid.T) {
		seq, flipped := draw(rt)
		// Pages given up by earlier commits hold the entry too: change them all.
		found(rt, copyOf(t, bytes.ReplaceAll(whole, stored[seq-1], flipped)))
	}))
}

// A flipped bit in bbolt's newer header page makes bbolt take the older one,
// without a word. bbolt, opened here as the reference, loses the last entry.
func TestVerifyFindsAnyFlippedBitOfTheNewerHeader(t *testing.T) {
	j := newJournal(t)
	mustAppend(t, j, "a")
	mustAppend(t, j, "b")
	whole := read(t, j.Path())
	page := newerHeader(whole)
	for bit := range 8 * 64 { // the header is 64 bytes, behind 16 of the page
		flipped := bytes.Clone(whole)
		flipped[page+16+bit/8] ^= 1 << (bit % 8)
		path := copyOf(t, flipped)
		report, err := journal.Verify(path)
		if !errors.Is(err, journal.ErrDamaged) {
			t.Fatalf("bit %d: got %v, findings %q", bit, err, report.Findings)
		}
	}
	whole[page+16+40] ^= 1
	path := copyOf(t, whole)
	if got := boltKeys(t, path, "entries"); got != 1 {
		t.Errorf("bbolt reads %d entries, want 1: the test is void", got)
	}
	damaged, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := len(all(t, damaged)); got != 1 {
		t.Errorf("read %d entries, want the 1 that is left", got)
	}
	if err := appendTo(damaged, "c"); !errors.Is(err, journal.ErrDamaged) {
		t.Errorf("write: got %v, want ErrDamaged", err)
	}
}

// newerHeader returns where the header page with the higher txid begins. The
// txid lies 48 bytes into the header (bbolt, internal/common/meta.go).
func newerHeader(file []byte) int {
	second := os.Getpagesize()
	txid := func(page int) uint64 { return binary.NativeEndian.Uint64(file[page+16+48:]) }
	if txid(second) > txid(0) {
		return second
	}
	return 0
}

func boltValue(t *testing.T, path, bucket, key string) (value []byte) {
	t.Helper()
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	_ = db.View(func(tx *bolt.Tx) error {
		value = bytes.Clone(tx.Bucket([]byte(bucket)).Get([]byte(key)))
		return nil
	})
	return value
}

func boltKeys(t *testing.T, path, bucket string) (n int) {
	t.Helper()
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	_ = db.View(func(tx *bolt.Tx) error {
		n = tx.Bucket([]byte(bucket)).Stats().KeyN
		return nil
	})
	return n
}

// Wherever a bit flips, Verify comes back; and if it finds nothing, nothing
// that can be read has changed.
func TestAnyFlippedBitIsFoundOrHarmless(t *testing.T) {
	j := sample(t)
	whole, lines := read(t, j.Path()), exported(t, j)
	rapid.Check(t, func(rt *rapid.T) {
		flipped := bytes.Clone(whole)
		bit := rapid.IntRange(0, 8*len(whole)-1).Draw(rt, "bit")
		flipped[bit/8] ^= 1 << (bit % 8)
		path := copyOf(t, flipped)
		if report, err := journal.Verify(path); err != nil {
			if !errors.Is(err, journal.ErrDamaged) {
				rt.Fatalf("got %v, findings %q", err, report.Findings)
			}
			return
		}
		copied, err := journal.Open(path)
		if err != nil {
			rt.Fatal(err)
		}
		if exported(t, copied) != lines {
			rt.Error("the entries changed and Verify found nothing")
		}
		for seq, id := range append(numbered(40), "long", "last") {
			if e := find(rt, copied, id); e.Seq != uint64(seq+1) {
				rt.Errorf("%s: got entry %d and Verify found nothing", id, e.Seq)
			}
		}
		// A record that a flipped bit took away cannot be missed; another than
		// was put would be.
		if got := mustSide(rt, copied, "pins", "kim")[0]; got != "first" && got != "-" {
			rt.Errorf("the side table says %q and Verify found nothing", got)
		}
	})
}

func find(t rapid.TB, j *journal.Journal, id string) (e journal.Entry) {
	err := j.View(func(tx *journal.Tx) (err error) {
		e, _, err = tx.Find(id)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Scrambled pages must not crash the program, in Verify or in ordinary use.
func TestScrambledPagesAreAnError(t *testing.T) {
	j := sample(t)
	whole := read(t, j.Path())
	rapid.Check(t, func(rt *rapid.T) {
		scrambled := bytes.Clone(whole)
		page := os.Getpagesize()
		from := rapid.IntRange(2*page, len(whole)-64).Draw(rt, "from")
		copy(scrambled[from:], rapid.SliceOfN(rapid.Byte(), 16, 64).Draw(rt, "noise"))
		path := copyOf(t, scrambled)
		_, verifyErr := journal.Verify(path)
		if verifyErr != nil && !errors.Is(verifyErr, journal.ErrDamaged) && !errors.Is(verifyErr, journal.ErrNotOurs) {
			rt.Errorf("verify: got %v", verifyErr)
		}
		copied, err := journal.Open(path)
		if err != nil {
			return
		}
		if err := copied.Export(&bytes.Buffer{}); err != nil && verifyErr == nil {
			rt.Errorf("export: got %v, and Verify found nothing", err)
		}
	})
}

// CheckPages is bbolt's own check: a page both in use and free is what Verify
// leaves to it.
func TestCheckPagesFindsALostPage(t *testing.T) {
	j := sample(t)
	path := copyOf(t, read(t, j.Path()))
	if err := journal.CheckPages(path); err != nil {
		t.Fatal(err)
	}
	content := read(t, path)
	// The list of free pages: flag 0x10, its length at 10 (bbolt,
	// internal/common/page.go). An empty list loses the pages it named.
	for at := 2 * os.Getpagesize(); at < len(content); at += os.Getpagesize() {
		if binary.NativeEndian.Uint16(content[at+8:]) == 0x10 {
			binary.NativeEndian.PutUint16(content[at+10:], 0)
		}
	}
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := journal.CheckPages(path); !errors.Is(err, journal.ErrDamaged) {
		t.Errorf("got %v, want ErrDamaged", err)
	}
}

func TestVerifyCounts(t *testing.T) {
	for _, n := range []int{0, 1, 500} {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			j := newJournal(t)
			mustAppend(t, j, numbered(n)...)
			if got := mustVerify(t, j.Path()); got.Entries != n || got.Head.Seq != uint64(n) {
				t.Errorf("got %d entries, head %d, want %d", got.Entries, got.Head.Seq, n)
			}
		})
	}
}
