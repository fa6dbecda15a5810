package journal

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// tree walks the pages of a file. bbolt trusts its pages: on a damaged file
// its cursor may panic, read beyond the map or run in circles for ever. This
// walk trusts nothing, reads without mapping, and goes on after a bad page.
type tree struct {
	file     io.ReaderAt
	pageSize uint64
	seen     []bool // by page, so that no page is read twice
	buffer   []byte // holds the page that was read last
	report   func(format string, args ...any)
}

func newTree(file io.ReaderAt, h header, report func(string, ...any)) *tree {
	return &tree{file: file, pageSize: h.pageSize, seen: make([]bool, h.highWater), report: report}
}

// walk visits the leaf elements of the tree under a page in order of their
// keys. Pages that cannot be read are reported and left out.
func (t *tree) walk(root uint64, visit func(element)) {
	t.descend(root, nil, nil, visit)
}

// descend walks one page, whose keys must lie in [low, high); nil is no bound.
// Keys out of bounds would not be found by a search.
func (t *tree) descend(id uint64, low, high []byte, visit func(element)) {
	p, err := t.read(id)
	if err != nil {
		t.report("page %d cannot be read: %v", id, err)
		return
	}
	if _, ok := p.packed(); !ok || p.count() == 0 {
		t.report("page %d: its keys do not follow each other without a gap: one was hidden, or its size changed", id)
	}
	last := low
	for i := range p.count() {
		e, ok := p.element(i)
		if !ok {
			t.report("page %d: its key %d lies outside it", id, i)
			return
		}
		order := bytes.Compare(e.key, last)
		if order < 0 || order == 0 && i > 0 || high != nil && bytes.Compare(e.key, high) >= 0 {
			t.report("page %d: its keys are out of order", id)
		}
		last = e.key
		if p.kind() == flagLeaf {
			visit(e)
			continue
		}
		above := high
		if next, ok := p.element(i + 1); ok {
			above = next.key
		}
		t.descend(e.below, e.key, above, visit)
	}
}

// read returns a page with its overflow: a leaf until the next read, a branch
// for as long as the pages below it are walked.
func (t *tree) read(id uint64) (page, error) {
	if id < 2 || id >= uint64(len(t.seen)) {
		return nil, errors.New("there is no such page")
	}
	if t.seen[id] {
		return nil, errors.New("two others point to it")
	}
	t.seen[id] = true
	p, err := t.pages(id, 1)
	if err != nil {
		return nil, err
	}
	if p.id() != id {
		return nil, fmt.Errorf("it says it is page %d", p.id())
	}
	if more := p.overflow(); more > 0 {
		if id+more >= uint64(len(t.seen)) {
			return nil, errors.New("it runs over the end of the file")
		}
		if p, err = t.pages(id, 1+more); err != nil {
			return nil, err
		}
	}
	if p.kind() == flagBranch {
		p = bytes.Clone(p)
	}
	return p, p.check()
}

func (t *tree) pages(id, n uint64) (page, error) {
	size := n * t.pageSize
	if uint64(cap(t.buffer)) < size {
		t.buffer = make([]byte, size)
	}
	p := page(t.buffer[:size])
	_, err := t.file.ReadAt(p, int64(id*t.pageSize))
	return p, err
}

// bucketPages is a bucket within the root: a tree of its own, or, while it is
// small, a page inside the value.
type bucketPages struct {
	root   uint64
	inline []byte
}

// buckets returns the top buckets by name.
func (t *tree) buckets(root uint64) map[string]bucketPages {
	found := make(map[string]bucketPages)
	t.walk(root, func(e element) {
		if e.flags != flagBucket || len(e.value) < bucketHeaderSize {
			t.report("key %q of the root is no bucket", e.key)
			return
		}
		found[string(e.key)] = bucketPages{
			root:   binary.NativeEndian.Uint64(e.value),
			inline: bytes.Clone(e.value[bucketHeaderSize:]),
		}
	})
	return found
}

// visit walks one of the buckets.
func (t *tree) visit(buckets map[string]bucketPages, name []byte, visit func(element)) {
	b, ok := buckets[string(name)]
	if !ok {
		t.report("bucket %s is missing", name)
		return
	}
	visitPlain := func(e element) {
		if e.flags != 0 { // bbolt would not find it
			t.report("bucket %s: key %q is not marked as a plain one", name, e.key)
		}
		visit(e)
	}
	if b.root != 0 {
		t.walk(b.root, visitPlain)
		return
	}
	p := page(b.inline)
	if err := p.check(); err != nil {
		t.report("bucket %s cannot be read: %v", name, err)
		return
	}
	if end, ok := p.packed(); !ok || end != len(p) {
		t.report("bucket %s: its keys do not follow each other without a gap: one was hidden, or its size changed", name)
	}
	for i := range p.count() {
		e, ok := p.element(i)
		if !ok {
			t.report("bucket %s: its key %d lies outside it", name, i)
			return
		}
		visitPlain(e)
	}
}
