package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// The layout is that of bbolt's format version 2 (go.etcd.io/bbolt,
// internal/common/page.go and bucket.go), in the byte order of the machine: a
// page header, then elements that point to keys and values behind them.
const (
	pageHeaderSize = 16
	elementSize    = 16

	flagBranch = 0x01
	flagLeaf   = 0x02
	flagHeader = 0x04

	flagBucket       = 0x01 // of a leaf element: the value is a bucket
	bucketHeaderSize = 16
)

// page is the bytes of a page with its overflow.
type page []byte

func (p page) id() uint64       { return binary.NativeEndian.Uint64(p) }
func (p page) kind() uint16     { return binary.NativeEndian.Uint16(p[8:]) }
func (p page) count() int       { return int(binary.NativeEndian.Uint16(p[10:])) }
func (p page) overflow() uint64 { return uint64(binary.NativeEndian.Uint32(p[12:])) }

// check makes sure that element may be asked for everything up to count.
func (p page) check() error {
	if len(p) < pageHeaderSize {
		return errors.New("it is cut short")
	}
	if p.kind() != flagBranch && p.kind() != flagLeaf {
		return fmt.Errorf("it is of no known kind (%#x)", p.kind())
	}
	if pageHeaderSize+p.count()*elementSize > len(p) {
		return fmt.Errorf("it counts %d keys, more than it holds", p.count())
	}
	return nil
}

// element is a key with its value on a leaf, or with the page below it on a
// branch. The slices are part of the page.
type element struct {
	key, value []byte
	below      uint64
	flags      uint32
}

// element returns false if the page has no such element, or one that points
// outside.
func (p page) element(i int) (element, bool) {
	if i >= p.count() {
		return element{}, false
	}
	order := binary.NativeEndian
	b := p[pageHeaderSize+i*elementSize:] // positions count from here
	if p.kind() == flagBranch {
		key, _, ok := within(b, order.Uint32(b), order.Uint32(b[4:]), 0)
		return element{key: key, below: order.Uint64(b[8:])}, ok
	}
	key, value, ok := within(b, order.Uint32(b[4:]), order.Uint32(b[8:]), order.Uint32(b[12:]))
	return element{key: key, value: value, flags: order.Uint32(b)}, ok
}

// packed reports whether keys and values stand one after the other behind the
// elements, as bbolt writes them (internal/common/inode.go, WriteInodeToPage).
// A count that was made smaller hides the last keys of a page and leaves
// everything else sound, but then the first key does not stand where it should.
// A page that counts none has nothing to tell by, so end is where the last
// value ends: bbolt gives an empty bucket no page of its own, and one within
// another page just the room it takes.
func (p page) packed() (end int, ok bool) {
	next := pageHeaderSize + p.count()*elementSize
	for i := range p.count() {
		at := pageHeaderSize + i*elementSize
		b := p[at:]
		pos, size := binary.NativeEndian.Uint32(b), uint64(binary.NativeEndian.Uint32(b[4:]))
		if p.kind() == flagLeaf {
			pos = binary.NativeEndian.Uint32(b[4:])
			size = uint64(binary.NativeEndian.Uint32(b[8:])) + uint64(binary.NativeEndian.Uint32(b[12:]))
		}
		if uint64(at)+uint64(pos) != uint64(next) || size > uint64(len(p)) {
			return 0, false
		}
		next += int(size)
	}
	return next, true
}

func within(b []byte, pos, keySize, valueSize uint32) (key, value []byte, ok bool) {
	from := uint64(pos)
	middle := from + uint64(keySize)
	to := middle + uint64(valueSize)
	if from < elementSize || to > uint64(len(b)) {
		return nil, nil, false
	}
	return b[from:middle], b[middle:to], true
}
