package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
)

// bbolt keeps two header pages and writes them in turn, so that one is always
// whole. When the newer one is bad it silently takes the older, and the last
// commit is gone. We read both ourselves, before bbolt does. The layout is
// that of go.etcd.io/bbolt, internal/common/meta.go.
const (
	boltMagic   = 0xED0CDAED
	boltVersion = 2

	headerSize  = pageHeaderSize + 64
	checkedSize = 56 // bytes of the header that its checksum covers

	leastPageSize = 1 << 10 // these two bound bbolt's own search for the second page
	mostPageSize  = 1 << 24
)

type header struct {
	pageSize  uint64
	root      uint64 // page of the root bucket
	highWater uint64 // pages in use, free ones among them
	txid      uint64
}

// headers is what the two header pages say together.
type headers struct {
	newest   header
	findings []string // what is wrong, although the file can be read
}

var (
	errNoHeader  = errors.New("no database header")
	errBadHeader = errors.New("checksum of the header does not match")
)

// readHeaders returns ErrNotOurs if a file of that size has no header of
// bbolt's, and ErrDamaged if it has none that holds or is shorter than it says.
func readHeaders(f io.ReaderAt, size int64) (headers, error) {
	first, firstErr := readHeader(f, 0, 0)
	second, secondErr := secondHeader(f, first, firstErr)
	var hs headers
	switch {
	case firstErr == nil && secondErr == nil:
		hs.newest = first
		if second.txid > first.txid {
			hs.newest = second
		}
		if older := min(first.txid, second.txid); hs.newest.txid != older+1 {
			hs.add("the two header pages belong to commits %d and %d, which do not follow each other", first.txid, second.txid)
		}
	case firstErr == nil:
		hs.newest = first
		hs.add("header page 1 is damaged (%v): what was committed last may be lost", secondErr)
	case secondErr == nil:
		hs.newest = second
		hs.add("header page 0 is damaged (%v): what was committed last may be lost", firstErr)
	case errors.Is(firstErr, errNoHeader) && errors.Is(secondErr, errNoHeader):
		return headers{}, ErrNotOurs
	default:
		return headers{}, fmt.Errorf("%w: both header pages are bad", ErrDamaged)
	}
	if has := uint64(size) / hs.newest.pageSize; has < hs.newest.highWater {
		return hs, fmt.Errorf("%w: the file has %d pages, its header counts %d: the end was cut off", ErrDamaged, has, hs.newest.highWater)
	}
	return hs, nil
}

func (hs *headers) add(format string, args ...any) {
	hs.findings = append(hs.findings, fmt.Sprintf(format, args...))
}

// secondHeader finds the second page. Its place depends on the page size,
// which is tried out if the first page cannot tell.
func secondHeader(f io.ReaderAt, first header, firstErr error) (header, error) {
	if firstErr == nil {
		return readHeader(f, 1, int64(first.pageSize))
	}
	worst := errNoHeader
	for size := int64(leastPageSize); size <= mostPageSize; size <<= 1 {
		h, err := readHeader(f, 1, size)
		if err == nil {
			return h, nil
		}
		if errors.Is(err, errBadHeader) {
			worst = err
		}
	}
	return header{}, worst
}

func readHeader(f io.ReaderAt, id uint64, offset int64) (header, error) {
	var b [headerSize]byte
	if _, err := f.ReadAt(b[:], offset); err != nil {
		return header{}, errNoHeader
	}
	order := binary.NativeEndian
	body := b[pageHeaderSize:]
	if order.Uint32(body) != boltMagic || order.Uint32(body[4:]) != boltVersion {
		return header{}, errNoHeader
	}
	check := fnv.New64a()
	_, _ = check.Write(body[:checkedSize])
	if check.Sum64() != order.Uint64(body[checkedSize:]) {
		return header{}, errBadHeader
	}
	pageSize := uint64(order.Uint32(body[8:]))
	if p := page(b[:]); p.id() != id || p.kind() != flagHeader || pageSize < leastPageSize {
		return header{}, errBadHeader
	}
	return header{
		pageSize:  pageSize,
		root:      order.Uint64(body[16:]),
		highWater: order.Uint64(body[40:]),
		txid:      order.Uint64(body[48:]),
	}, nil
}
