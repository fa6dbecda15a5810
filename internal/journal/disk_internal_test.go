package journal

import (
	"bytes"
	"errors"
	"fmt"
	"hash/maphash"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
	"unsafe"

	bolt "go.etcd.io/bbolt"
)

// disk stands between bbolt and the file: it keeps each write as it was made,
// and breaks those that it is told to.
type disk struct {
	writes []diskWrite
	breaks func(n int, w diskWrite) (written int, err error) // nil: none
}

// diskWrite is one call to write at a place in the file.
type diskWrite struct {
	offset int64
	data   []byte
}

// under puts d below h. bbolt writes through a field that its own tests
// replace (go.etcd.io/bbolt, db.go, ops); it is not exported, so this reaches
// for it, and says so where a later bbolt has none.
func (d *disk) under(h *handle) {
	field := reflect.ValueOf(h.db).Elem().FieldByName("ops").FieldByName("writeAt")
	if field.Type() != reflect.TypeFor[func([]byte, int64) (int, error)]() {
		panic("bbolt no longer writes through ops.writeAt: the tests of the disk are void")
	}
	hook := (*func([]byte, int64) (int, error))(unsafe.Pointer(field.UnsafeAddr()))
	whole := *hook
	*hook = func(b []byte, offset int64) (int, error) {
		w := diskWrite{offset, bytes.Clone(b)}
		n := len(d.writes)
		d.writes = append(d.writes, w)
		if d.breaks == nil {
			return whole(b, offset)
		}
		written, err := d.breaks(n, w)
		if err == nil {
			return whole(b, offset)
		}
		if written > 0 {
			if _, err := whole(b[:written], offset); err != nil {
				return 0, err
			}
		}
		return written, err
	}
}

// update is a transaction as transact runs it, on this disk and without
// waiting for a real one.
func (d *disk) update(path string, fn func(*Tx) error) (err error) {
	h, err := openWithin(path, forWriting, time.Now())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, h.close()) }()
	h.db.NoSync = true
	d.writes = nil
	d.under(h)
	tx, err := begin(h, path, forWriting)
	if err != nil {
		return err
	}
	if err := fn(tx); err != nil {
		return err
	}
	return h.commit()
}

// content is everything that a file says, each key of each table, in one hash:
// it differs where anything does that a reader would see. It opens the file as
// every transaction does.
func content(path string) (uint64, error) { return contentFor(forReading, path) }

// soundContent is content with bbolt's own check of the pages, as CheckPages
// makes it.
func soundContent(path string) (uint64, error) { return contentFor(forChecking, path) }

func contentFor(m mode, path string) (uint64, error) {
	h, err := openWithin(path, m, time.Now())
	if err != nil {
		return 0, err
	}
	if m == forChecking {
		err = h.check()
	}
	c := newDigest()
	err = errors.Join(err, h.try(func() error {
		return h.tx.ForEach(func(name []byte, b *bolt.Bucket) error {
			c.table(name)
			return b.ForEach(func(k, v []byte) error {
				c.record(k, v)
				return nil
			})
		})
	}))
	return c.Sum64(), errors.Join(err, h.close())
}

// contentOf is content for the bytes of a file that holds, without bbolt: a
// tenth of the time.
func contentOf(t *testing.T, file []byte) uint64 {
	t.Helper()
	hs, err := readHeaders(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	c := newDigest()
	tr := newTree(bytes.NewReader(file), hs.newest, t.Errorf)
	buckets := tr.buckets(hs.newest.root)
	for _, name := range slices.Sorted(maps.Keys(buckets)) {
		c.table([]byte(name))
		tr.visit(buckets, []byte(name), func(e element) { c.record(e.key, e.value) })
	}
	return c.Sum64()
}

type digest struct{ maphash.Hash }

var contentSeed = maphash.MakeSeed()

func newDigest() *digest {
	c := new(digest)
	c.SetSeed(contentSeed)
	return c
}

func (c *digest) table(name []byte) { c.record(name, nil) }

func (c *digest) record(key, value []byte) {
	maphash.WriteComparable(&c.Hash, [2]int{len(key), len(value)})
	_, _ = c.Write(key)
	_, _ = c.Write(value)
}

// change is one of the transactions that a station makes: a line or several,
// a long one, a checkpoint, a record beside the chain or its removal.
func change(r *rand.Rand, tx *Tx) error {
	if err := appendSome(r, tx); err != nil {
		return err
	}
	switch r.IntN(8) {
	case 0:
		return tx.SetCheckpoint(bytes.Repeat([]byte("s"), r.IntN(5000)))
	case 1:
		return tx.Side("pins").Put(fmt.Sprint("member-", r.IntN(4)), bytes.Repeat([]byte("p"), r.IntN(200)))
	case 2:
		return tx.Side("pins").Delete(fmt.Sprint("member-", r.IntN(4)))
	}
	return nil
}

func appendSome(r *rand.Rand, tx *Tx) error {
	lines, long := 1, 0
	switch r.IntN(16) {
	case 0:
		lines = 1 + r.IntN(12)
	case 1:
		long = r.IntN(9000)
	}
	for range lines {
		e := Entry{
			ID: fmt.Sprintf("id-%016x", r.Uint64()), By: "kim", Bath: "main", Kind: "reading",
			Body: fmt.Appendf(nil, `{"ph":%.2f,"note":%q}`, 9+r.Float64(), strings.Repeat("x", long)),
		}
		if _, err := tx.Append(e); err != nil {
			return err
		}
	}
	return nil
}

// step is one transaction: the file before it and after it, and the writes
// between, of which the last is that of the header page.
type step struct {
	before, after   []byte
	saysBefore      uint64
	saysAfter       uint64
	pages           []diskWrite // may reach the disk in any order, or not at all, until it is told to sync
	header          diskWrite   // is written when the pages are on the disk
	left            []byte      // on the disk, when the power fails
	source, scratch string
}

// steps makes transactions on fresh files, so many on each, and hands each to
// check, with the disk as it was before the transaction.
func steps(t *testing.T, seed uint64, files, each int, check func(*rand.Rand, *step)) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 0))
	for range files {
		dir := t.TempDir()
		s := &step{source: filepath.Join(dir, "station.db"), scratch: filepath.Join(dir, "scratch.db")}
		if _, err := Create(s.source); err != nil {
			t.Fatal(err)
		}
		s.after, s.saysAfter = s.look(t)
		for range each {
			s.make(t, r)
			s.left = bytes.Clone(s.before)
			check(r, s)
		}
	}
}

func (s *step) make(t *testing.T, r *rand.Rand) {
	t.Helper()
	s.before, s.saysBefore = s.after, s.saysAfter
	var d disk
	if err := d.update(s.source, func(tx *Tx) error { return change(r, tx) }); err != nil {
		t.Fatal(err)
	}
	s.after, s.saysAfter = s.look(t)
	last := len(d.writes) - 1
	s.pages, s.header = d.writes[:last], d.writes[last]
	replayed := append(bytes.Clone(s.before), make([]byte, len(s.after)-len(s.before))...)
	for _, w := range d.writes {
		copy(replayed[w.offset:], w.data)
	}
	if !bytes.Equal(replayed, s.after) {
		t.Fatal("the writes that were recorded are not all that were made: the test is void")
	}
	pageSize := int64(os.Getpagesize())
	if s.header.offset > pageSize || slices.ContainsFunc(s.pages, func(w diskWrite) bool { return w.offset <= pageSize }) {
		t.Fatal("the header is not written last: the test is void")
	}
}

func (s *step) look(t *testing.T) ([]byte, uint64) {
	t.Helper()
	file, err := os.ReadFile(s.source)
	if err != nil {
		t.Fatal(err)
	}
	says, err := content(s.source)
	if err != nil {
		t.Fatal(err)
	}
	if contentOf(t, file) != says {
		t.Fatal("the two ways to read a file do not agree: the test is void")
	}
	return file, says
}
