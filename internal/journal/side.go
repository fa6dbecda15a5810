package journal

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Side is a table beside the chain, for what must be kept and may change or
// go: a bucket of its own that is written in the same transactions. It is no
// part of the log. No hash in the chain covers it, Export leaves it out, and
// an imported journal has none. What was put over or deleted may stay in the
// free pages of the file until they are used again.
//
// Each record is sealed by itself, so that Verify finds bytes that changed. It
// cannot see that a whole record was removed, or made anew by somebody who
// knows how.
type Side struct {
	t      *Tx
	bucket []byte
}

// Side gives the table of that name, which is made when something is put
// there. Tables do not share a name with the buckets of the journal.
func (t *Tx) Side(table string) Side {
	bucket := []byte(table)
	if isOwn(bucket) {
		panic("journal: " + table + " is a bucket of the journal and no side table")
	}
	return Side{t, bucket}
}

// isOwn reports whether a bucket is one that every journal has.
func isOwn(bucket []byte) bool {
	return slices.ContainsFunc(allBuckets, func(own []byte) bool { return bytes.Equal(own, bucket) })
}

// Get returns what was put under key, a copy, nil if there is nothing, and
// ErrDamaged if it is not what was put there.
func (s Side) Get(key string) ([]byte, error) {
	stored, err := s.t.h.get(s.bucket, []byte(key))
	if err != nil {
		return nil, s.wrap("read", err)
	}
	if stored == nil {
		return nil, nil
	}
	data, ok := openSide(s.bucket, []byte(key), stored)
	if !ok {
		return nil, s.wrap("read", fmt.Errorf("%w: %s", ErrDamaged, brokenSide(s.bucket, []byte(key))))
	}
	return data, nil
}

// Put stores data under key, in place of what was there. The key may not be
// empty.
func (s Side) Put(key string, data []byte) error {
	stored := append(sealSide(s.bucket, []byte(key), data), data...)
	err := s.t.h.changeSide(func(tx *bolt.Tx) error {
		b, err := tx.CreateBucketIfNotExists(s.bucket)
		if err != nil {
			return err
		}
		return b.Put([]byte(key), stored)
	})
	if err != nil {
		return s.wrap("write", err)
	}
	s.t.dirty = true
	return nil
}

// Delete removes what is under key. There need not be anything.
func (s Side) Delete(key string) error {
	err := s.t.h.changeSide(func(tx *bolt.Tx) error {
		b := tx.Bucket(s.bucket)
		switch {
		case !tx.Writable():
			return berrors.ErrTxNotWritable
		case b == nil || b.Get([]byte(key)) == nil:
			return nil
		}
		s.t.dirty = true
		return b.Delete([]byte(key))
	})
	if err != nil {
		return s.wrap("write", err)
	}
	return nil
}

func (s Side) wrap(doing string, err error) error {
	return s.t.wrap(fmt.Sprintf("%s table %s", doing, s.bucket), err)
}

// changeSide runs one change. A failure is remembered, and nothing is
// committed after it.
func (h *handle) changeSide(change func(*bolt.Tx) error) error {
	if h.tx == nil {
		return berrors.ErrTxClosed
	}
	err := h.try(func() error { return change(h.tx) })
	if err != nil {
		h.failed = err
	}
	return err
}

// sealSide is the hash that stands before the data of a record. It covers the
// names too: a record that came to stand elsewhere shows.
func sealSide(bucket, key, data []byte) []byte {
	seal := sha256.Sum256(bytes.Join([][]byte{bucket, key, data}, []byte{0}))
	return seal[:]
}

func openSide(bucket, key, stored []byte) (data []byte, ok bool) {
	if len(stored) < sha256.Size {
		return nil, false
	}
	seal, data := stored[:sha256.Size], stored[sha256.Size:]
	return data, bytes.Equal(seal, sealSide(bucket, key, data))
}

func brokenSide(bucket, key []byte) string {
	return fmt.Sprintf("the record %q of table %s does not match its own seal: its bytes were changed", key, bucket)
}

// sides looks at every bucket that is none of the journal's own.
func (v *verifier) sides(t *tree, buckets map[string]bucketPages) {
	for _, name := range slices.Sorted(maps.Keys(buckets)) {
		bucket := []byte(name)
		if isOwn(bucket) {
			continue
		}
		t.visit(buckets, bucket, func(e element) {
			if _, ok := openSide(bucket, e.key, e.value); !ok {
				v.find("%s", brokenSide(bucket, e.key))
			}
		})
	}
}
