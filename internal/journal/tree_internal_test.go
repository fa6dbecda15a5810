package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Offsets are those of go.etcd.io/bbolt, internal/common/page.go: a page has
// id 8, flags 2, count 2, overflow 4 bytes; a leaf element flags, position,
// key size, value size of 4 each; a branch element position and key size of 4
// each and the page of 8.
func TestVerifyFindsDamagedPages(t *testing.T) {
	path, leaf, branch := deepJournal(t)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	order := binary.NativeEndian
	tests := []struct {
		name   string
		damage func(leaf, branch []byte)
		want   string
	}{
		{"page of another number", func(leaf, _ []byte) { order.PutUint64(leaf, 999) }, "it says it is page 999"},
		{"page of no kind", func(leaf, _ []byte) { order.PutUint16(leaf[8:], 3) }, "it is of no known kind"},
		{"more keys than fit", func(leaf, _ []byte) { order.PutUint16(leaf[10:], 60000) }, "it counts 60000 keys"},
		{"fewer keys", func(leaf, _ []byte) { order.PutUint16(leaf[10:], 1) }, "are missing"},
		{"no keys", func(leaf, _ []byte) { order.PutUint16(leaf[10:], 0) }, "its keys do not follow each other without a gap"},
		{"overflow beyond the file", func(leaf, _ []byte) { order.PutUint32(leaf[12:], 1<<20) }, "it runs over the end"},
		{"marked as a bucket", func(leaf, _ []byte) { order.PutUint32(leaf[16:], 1) }, "is not marked as a plain one"},
		{"key outside the page", func(leaf, _ []byte) { order.PutUint32(leaf[20:], 1<<31) }, "its key 0 lies outside it"},
		{"value outside the page", func(leaf, _ []byte) { order.PutUint32(leaf[28:], 1<<31) }, "its key 0 lies outside it"},
		{"keys out of order", func(leaf, _ []byte) { leaf[16+order.Uint32(leaf[20:])] = 0xFF }, "its keys are out of order"},
		{"branch that points to itself", func(_, branch []byte) { order.PutUint64(branch[24:], order.Uint64(branch)) }, "two others point to it"},
		{"branch that points nowhere", func(_, branch []byte) { order.PutUint64(branch[24:], 1<<40) }, "there is no such page"},
		{"branch that points to a header", func(_, branch []byte) { order.PutUint64(branch[24:], 1) }, "there is no such page"},
		{"branch that misleads a search", func(_, branch []byte) { branch[32+order.Uint32(branch[32:])] = 0xFF }, "its keys are out of order"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			file := append([]byte(nil), whole...)
			test.damage(file[leaf:], file[branch:])
			path := filepath.Join(t.TempDir(), "copy.db")
			if err := os.WriteFile(path, file, 0o600); err != nil {
				t.Fatal(err)
			}
			report, err := Verify(path)
			if found := strings.Join(report.Findings, "\n"); !errors.Is(err, ErrDamaged) || !strings.Contains(found, test.want) {
				t.Errorf("got %v, findings\n%s\nwant %q", err, found, test.want)
			}
			if len(report.Findings) > maxFindings+1 {
				t.Errorf("got %d findings, at most %d and a last word are wanted", len(report.Findings), maxFindings)
			}
		})
	}
}

// deepJournal returns a journal whose entries have a branch page, and where in
// the file the last leaf and the last branch of theirs begin.
func deepJournal(t *testing.T) (path string, leaf, branch int) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "station.db")
	j, err := Create(path)
	if err != nil {
		t.Fatal(err)
	}
	err = j.Update(func(tx *Tx) error {
		for i := range 500 {
			if _, err := tx.Append(Entry{ID: fmt.Sprintf("id-%04d", i), Kind: "reading"}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	hs, err := readHeaders(f, info.Size())
	if err != nil {
		t.Fatal(err)
	}
	tr := newTree(f, hs.newest, t.Errorf)
	tr.visit(tr.buckets(hs.newest.root), bucketEntries, func(element) {})
	return path, lastOf(t, tr, f, flagLeaf), lastOf(t, tr, f, flagBranch)
}

// lastOf leaves out the root bucket's page, which is in use but is no bucket
// of ours.
func lastOf(t *testing.T, tr *tree, f *os.File, kind uint16) int {
	t.Helper()
	for id := len(tr.seen) - 1; id > 1; id-- {
		var head [pageHeaderSize]byte
		at := id * int(tr.pageSize)
		if _, err := f.ReadAt(head[:], int64(at)); err != nil {
			t.Fatal(err)
		}
		if p := page(head[:]); tr.seen[id] && p.kind() == kind && p.count() > len(allBuckets) {
			return at
		}
	}
	t.Fatalf("no page of kind %d: the test is void", kind)
	return 0
}

// bbolt writes its two headers in turn, so their commits follow each other. A
// header from elsewhere, though sound in itself, must not pass.
func TestHeadersThatDoNotFollowEachOther(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	j, err := Create(path)
	if err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 4 {
		err := j.Update(func(tx *Tx) error {
			_, err := tx.Append(Entry{ID: fmt.Sprint("id-", i), Kind: "reading"})
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	copy(file[:os.Getpagesize()], old)
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	report, err := Verify(path)
	if !errors.Is(err, ErrDamaged) || !strings.Contains(strings.Join(report.Findings, "\n"), "do not follow each other") {
		t.Errorf("got %v, findings %q", err, report.Findings)
	}
}
