package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"
)

// victim is a journal with everything in it, opened behind the package's back.
// Each change to it is undone before the next.
type victim struct {
	path  string
	file  []byte // read from the disk, for the next reading to reuse
	db    *bolt.DB
	lines [][]byte // of entry 1 at 0
	was   map[string]map[string][]byte
}

func newVictim(t *testing.T) *victim {
	t.Helper()
	v := &victim{path: filepath.Join(t.TempDir(), "station.db"), was: make(map[string]map[string][]byte)}
	if _, err := Create(v.path); err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(5, 0))
	for i := range 30 {
		err := new(disk).update(v.path, func(tx *Tx) error {
			if i == 20 {
				return tx.SetCheckpoint([]byte("folded"))
			}
			return change(r, tx)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	db, err := bolt.Open(v.path, 0o600, &bolt.Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	v.db = db
	err = db.View(func(tx *bolt.Tx) error {
		return tx.ForEach(func(name []byte, b *bolt.Bucket) error {
			keys := make(map[string][]byte)
			v.was[string(name)] = keys
			return b.ForEach(func(k, value []byte) error {
				keys[string(k)] = bytes.Clone(value)
				if string(name) == "entries" {
					v.lines = append(v.lines, bytes.Clone(value))
				}
				return nil
			})
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(v.lines) < 30 || len(v.was["pins"]) == 0 || len(v.was["checkpoint"]) == 0 {
		t.Fatalf("%d lines, %d records, %d checkpoints: the test is void", len(v.lines), len(v.was["pins"]), len(v.was["checkpoint"]))
	}
	return v
}

// puts is a change: what to store under the keys of each bucket, nil to remove.
type puts map[string]map[string][]byte

// lineputs is one of entries, by sequence.
func lineputs(lines map[uint64][]byte) puts {
	keys := make(map[string][]byte)
	for seq, raw := range lines {
		keys[string(seqKey(seq))] = raw
	}
	return puts{"entries": keys}
}

// apply stores p, and gives what puts everything back.
func (v *victim) apply(t *testing.T, p puts) (back puts) {
	t.Helper()
	back = make(puts)
	err := v.db.Update(func(tx *bolt.Tx) error {
		for name, keys := range p {
			b := tx.Bucket([]byte(name))
			back[name] = make(map[string][]byte)
			for k, value := range keys {
				back[name][k] = v.was[name][k]
				var err error
				if value == nil {
					err = b.Delete([]byte(k))
				} else {
					err = b.Put([]byte(k), value)
				}
				if err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return back
}

func (v *victim) inspect(t *testing.T) (Report, []byte) {
	t.Helper()
	f, err := os.Open(v.path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	v.file = slices.Grow(v.file[:0], int(info.Size()))[:info.Size()]
	if _, err := f.ReadAt(v.file, 0); err != nil {
		t.Fatal(err)
	}
	report, err := inspect(bytes.NewReader(v.file), info.Size())
	if err != nil {
		t.Fatal(err)
	}
	return report, v.file
}

// tamper is a way to change a journal by its entries. It gives the change, and
// what Verify must say of it.
type tamper struct {
	name string
	make func(*rand.Rand, *victim) (puts, string)
}

var tampers = []tamper{
	{"byte changed", byteChanged},
	{"bytes put in or taken out", lengthChanged},
	{"entry removed", entriesRemoved},
	{"two swapped", twoSwapped},
	{"reordered", reordered},
	{"one put in, the rest moved up", putBetween},
	{"one put on top", putOnTop},
	{"one under a key that is no sequence", putAside},
	{"tail cut off", tailCut},
	{"head removed", headRemoved},
	{"head changed", headChanged},
	{"chain made anew below the old head", chainRebuilt},
	{"ID index changed", indexChanged},
	{"record beside the chain changed", sideChanged},
	{"checkpoint changed", checkpointChanged},
}

func (v *victim) some(r *rand.Rand) uint64 { return 1 + r.Uint64N(uint64(len(v.lines))) }
func (v *victim) line(seq uint64) []byte   { return v.lines[seq-1] }
func (v *victim) newest() uint64           { return uint64(len(v.lines)) }

// says is a finding that names an entry, alone or within a range.
func says(seq uint64) string { return fmt.Sprintf(`\bentr(y|ies \d+ to) %d\b`, seq) }

func changedByte(r *rand.Rand, raw []byte) []byte {
	changed := bytes.Clone(raw)
	changed[r.IntN(len(changed))] ^= byte(1 + r.IntN(255))
	return changed
}

func byteChanged(r *rand.Rand, v *victim) (puts, string) {
	seq := v.some(r)
	return lineputs(map[uint64][]byte{seq: changedByte(r, v.line(seq))}), says(seq)
}

func lengthChanged(r *rand.Rand, v *victim) (puts, string) {
	seq := v.some(r)
	raw, at := v.line(seq), r.IntN(len(v.line(seq)))
	if r.IntN(2) == 0 {
		return lineputs(map[uint64][]byte{seq: slices.Insert(bytes.Clone(raw), at, byte(r.IntN(256)))}), says(seq)
	}
	return lineputs(map[uint64][]byte{seq: slices.Delete(bytes.Clone(raw), at, min(at+1+r.IntN(9), len(raw)))}), says(seq)
}

func entriesRemoved(r *rand.Rand, v *victim) (puts, string) {
	first := v.some(r)
	last := min(first+r.Uint64N(4), v.newest())
	gone := make(map[uint64][]byte)
	for seq := first; seq <= last; seq++ {
		gone[seq] = nil
	}
	return lineputs(gone), missing(first, last)
}

func twoSwapped(r *rand.Rand, v *victim) (puts, string) {
	a := v.some(r)
	b := a%v.newest() + 1
	if r.IntN(2) == 0 {
		for b = v.some(r); b == a; b = v.some(r) {
		}
	}
	return lineputs(map[uint64][]byte{a: v.line(b), b: v.line(a)}), fmt.Sprintf("entry %d says that it is entry %d", a, b)
}

// reordered turns a run of entries around by one.
func reordered(r *rand.Rand, v *victim) (puts, string) {
	first := 1 + r.Uint64N(v.newest()-3)
	last := min(first+2+r.Uint64N(5), v.newest())
	moved := map[uint64][]byte{first: v.line(last)}
	for seq := first + 1; seq <= last; seq++ {
		moved[seq] = v.line(seq - 1)
	}
	return lineputs(moved), fmt.Sprintf("entry %d says that it is entry %d", first, last)
}

// forged is an entry that is laid out as one should be.
func forged(r *rand.Rand, seq uint64, prev Hash) []byte {
	raw, err := Entry{Prev: prev, Seq: seq, ID: fmt.Sprintf("forged-%d", r.Uint64()), By: "mallory", Kind: "reading", Body: json.RawMessage(`{"ph":10.1}`)}.encode()
	if err != nil {
		panic(err)
	}
	return raw
}

func putBetween(r *rand.Rand, v *victim) (puts, string) {
	at := v.some(r)
	moved := map[uint64][]byte{v.newest() + 1: v.line(v.newest())}
	for seq := at + 1; seq <= v.newest(); seq++ {
		moved[seq] = v.line(seq - 1)
	}
	var prev Hash
	if at > 1 {
		prev = sum(v.line(at - 1))
	}
	moved[at] = forged(r, at, prev)
	return lineputs(moved), fmt.Sprintf("entry %d says that it is entry %d", at+1, at)
}

func putOnTop(r *rand.Rand, v *victim) (puts, string) {
	next := v.newest() + 1
	return lineputs(map[uint64][]byte{next: forged(r, next, sum(v.line(v.newest())))}), fmt.Sprintf("entry %d stands beyond the head", next)
}

func putAside(r *rand.Rand, v *victim) (puts, string) {
	key := make([]byte, 1+r.IntN(7))
	for i := range key {
		key[i] = byte(r.IntN(256))
	}
	return puts{"entries": {string(key): forged(r, 1, Hash{})}}, fmt.Sprintf("an entry under the key %x", key)
}

func tailCut(r *rand.Rand, v *victim) (puts, string) {
	first := v.some(r)
	gone := make(map[uint64][]byte)
	for seq := first; seq <= v.newest(); seq++ {
		gone[seq] = nil
	}
	return lineputs(gone), missing(first, v.newest())
}

func headRemoved(_ *rand.Rand, _ *victim) (puts, string) {
	return puts{"meta": {"head": nil}}, "the head cannot be read"
}

func headChanged(r *rand.Rand, v *victim) (puts, string) {
	return puts{"meta": {"head": changedByte(r, v.was["meta"]["head"])}}, `entr(y|ies) .*(head|missing)|entries \d+ to \d+ are missing`
}

// chainRebuilt changes an entry and makes all after it fit again.
func chainRebuilt(r *rand.Rand, v *victim) (puts, string) {
	first := v.some(r)
	anew := make(map[uint64][]byte)
	raw := bytes.Replace(v.line(first), []byte(`"by":"kim"`), []byte(`"by":"lee"`), 1)
	for seq := first; ; seq++ {
		anew[seq] = raw
		if seq == v.newest() {
			return lineputs(anew), fmt.Sprintf("entry %d does not match the seal stored in the head", seq)
		}
		hash := sum(raw)
		raw = bytes.Replace(v.line(seq+1), v.line(seq + 1)[9:73], []byte(hash.String()), 1)
	}
}

func indexChanged(r *rand.Rand, v *victim) (puts, string) {
	seq := v.some(r)
	o, _ := parseOpening(v.line(seq))
	want := fmt.Sprintf(`entry %d is not in the index of IDs`, seq)
	switch r.IntN(3) {
	case 0:
		return puts{"ids": {string(o.id): nil}}, want
	case 1:
		return puts{"ids": {string(o.id): seqKey(seq%v.newest() + 1)}}, want
	}
	return puts{"ids": {fmt.Sprint("forged-", r.Uint64()): seqKey(seq)}}, fmt.Sprintf("the index of IDs names entry %d twice", seq)
}

func sideChanged(r *rand.Rand, v *victim) (puts, string) {
	names := slices.Sorted(func(yield func(string) bool) {
		for name := range v.was["pins"] {
			if !yield(name) {
				return
			}
		}
	})
	name := names[r.IntN(len(names))]
	return puts{"pins": {name: changedByte(r, v.was["pins"][name])}}, fmt.Sprintf("the record %q of table pins", name)
}

func checkpointChanged(r *rand.Rand, v *victim) (puts, string) {
	return puts{"checkpoint": {"state": changedByte(r, v.was["checkpoint"]["state"])}}, "the checkpoint"
}

func TestTamperedEntries(t *testing.T) {
	t.Parallel()
	const each = 350
	v := newVictim(t)
	r := rand.New(rand.NewPCG(6, 0))
	if report, _ := v.inspect(t); len(report.Findings) > 0 {
		t.Fatalf("before anything was done: %q", report.Findings)
	}
	copied := filepath.Join(t.TempDir(), "copy.db")
	tried := 0
	for _, way := range tampers {
		for i := range each {
			p, want := way.make(r, v)
			back := v.apply(t, p)
			report, file := v.inspect(t)
			if found := strings.Join(report.Findings, "\n"); !regexp.MustCompile(want).MatchString(found) {
				t.Fatalf("%s: got findings\n%s\nwant %q", way.name, found, want)
			}
			tried++
			if i%50 == 0 { // as a command sees it
				if err := os.WriteFile(copied, file, 0o600); err != nil {
					t.Fatal(err)
				}
				if got, err := Verify(copied); !errors.Is(err, ErrDamaged) || !slices.Equal(got.Findings, report.Findings) {
					t.Fatalf("%s: Verify says %v, %q, not %q", way.name, err, got.Findings, report.Findings)
				}
			}
			v.apply(t, back)
		}
	}
	if report, _ := v.inspect(t); len(report.Findings) > 0 {
		t.Fatalf("after all was put back: %q: the test is void", report.Findings)
	}
	t.Logf("%d changes by entries, %d ways: %d found, and what was changed named", tried, len(tampers), tried)
}

// A page that counts too few keys is sound in itself. What it hides may be a
// record beside the chain, which nothing else would miss.
func TestAHiddenRecordIsFound(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	if _, err := Create(path); err != nil {
		t.Fatal(err)
	}
	err := new(disk).update(path, func(tx *Tx) error {
		return errors.Join(tx.Side("pins").Put("kim", []byte("one")), tx.Side("pins").Put("lee", []byte("two")))
	})
	if err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	was := contentOf(t, file)
	for at := range len(file) - 3 {
		// The count of keys stands behind the id and the kind of a page. The
		// page of a small bucket lies within another, anywhere.
		p := page(file[at:])
		if len(p) < pageHeaderSize || p.kind() != flagLeaf || p.count() != 2 || !bytes.Contains(p[:min(200, len(p))], []byte("kim")) {
			continue
		}
		for count := range byte(2) {
			changed := bytes.Clone(file)
			changed[at+10] = count
			report, err := inspect(bytes.NewReader(changed), int64(len(changed)))
			if err != nil {
				t.Fatal(err)
			}
			if found := strings.Join(report.Findings, "\n"); !strings.Contains(found, "bucket pins: its keys do not follow each other") {
				t.Errorf("counts %d: got findings %q", count, found)
			}
			s := &step{left: changed, scratch: path}
			s.store(t)
			if got, err := content(path); err != nil || got == was {
				t.Errorf("counts %d: %v: the record is not hidden: the test is void", count, err)
			}
		}
		return
	}
	t.Fatal("no page of that table: the test is void")
}
