package journal

import (
	"fmt"
	"strconv"
	"strings"
)

const (
	formatName    = "bathside-journal/"
	formatVersion = 1
)

var (
	bucketMeta       = []byte("meta")
	bucketEntries    = []byte("entries")
	bucketIDs        = []byte("ids")
	bucketCheckpoint = []byte("checkpoint")

	allBuckets = [][]byte{bucketMeta, bucketEntries, bucketIDs, bucketCheckpoint}

	keyFormat = []byte("format")
	keyID     = []byte("id")
	keyHead   = []byte("head")
)

// begin checks what every transaction rests on: that the file is ours, that
// we understand it, and, before writing, that its newest entry is intact.
// Another process may have changed any of it since the last transaction.
func begin(h *handle, path string, m mode) (*Tx, error) {
	tx := &Tx{h: h, path: path}
	if err := tx.checkFormat(); err != nil {
		return nil, err
	}
	if err := tx.loadHead(); err != nil {
		return nil, err
	}
	if m == forWriting {
		if err := tx.checkTail(); err != nil {
			return nil, err
		}
	}
	return tx, nil
}

// text reads a value of the meta bucket.
func (t *Tx) text(key []byte) (string, error) {
	value, err := t.h.get(bucketMeta, key)
	return string(value), err
}

func (t *Tx) checkFormat() error {
	format, err := t.text(keyFormat)
	if err != nil {
		return err
	}
	return checkFormat(format)
}

func checkFormat(format string) error {
	number, ok := strings.CutPrefix(format, formatName)
	if !ok {
		return ErrNotOurs
	}
	switch version, err := strconv.ParseUint(number, 10, 32); {
	case err != nil || version == 0:
		return fmt.Errorf("%w: its format is %q", ErrDamaged, format)
	case version > formatVersion:
		return fmt.Errorf("%w: its format is %d, this version knows %d", ErrNewer, version, formatVersion)
	}
	return nil
}

func (t *Tx) loadHead() error {
	value, err := t.h.get(bucketMeta, keyHead)
	if err != nil {
		return err
	}
	head, ok := decodeHead(value)
	if !ok {
		return fmt.Errorf("%w: its head is unreadable", ErrDamaged)
	}
	t.head = head
	return nil
}

// checkTail keeps a damaged journal from being written on.
func (t *Tx) checkTail() error {
	raw, err := t.h.get(bucketEntries, seqKey(t.head.Seq))
	if err != nil {
		return err
	}
	var newest Hash
	if t.head.Seq > 0 {
		newest = sum(raw)
	}
	beyond, err := t.h.get(bucketEntries, seqKey(t.head.Seq+1))
	if err != nil {
		return err
	}
	if newest != t.head.Hash || beyond != nil {
		return fmt.Errorf("%w: its newest entry is not the one that was sealed", ErrDamaged)
	}
	return nil
}
