package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
	"iter"
)

// Tx is one transaction. It belongs to the goroutine that runs it.
type Tx struct {
	h     *handle
	path  string
	head  Head
	dirty bool
}

// Head returns the newest entry's sequence and hash, with those appended in
// this transaction.
func (t *Tx) Head() Head { return t.head }

// Raw returns the stored bytes of an entry, a copy, or ErrNoEntry.
func (t *Tx) Raw(seq uint64) ([]byte, error) {
	if seq == 0 || seq > t.head.Seq {
		return nil, t.wrap(fmt.Sprintf("read entry %d", seq), ErrNoEntry)
	}
	raw, err := t.h.get(bucketEntries, seqKey(seq))
	if err == nil && raw == nil {
		err = fmt.Errorf("%w: the entry is missing", ErrDamaged)
	}
	if err != nil {
		return nil, t.wrap(fmt.Sprintf("read entry %d", seq), err)
	}
	return raw, nil
}

// Hash returns the hash of an entry, which is the head as it was when that
// entry was the newest; of 0, the zero Hash of an empty journal.
func (t *Tx) Hash(seq uint64) (Hash, error) {
	if seq == 0 {
		return Hash{}, nil
	}
	raw, err := t.Raw(seq)
	return sum(raw), err
}

// Get returns an entry, or ErrNoEntry.
func (t *Tx) Get(seq uint64) (Entry, error) {
	raw, err := t.Raw(seq)
	if err != nil {
		return Entry{}, err
	}
	e, err := decode(raw)
	if err == nil && e.Seq != seq {
		err = fmt.Errorf("%w: the entry says it is number %d", ErrDamaged, e.Seq)
	}
	if err != nil {
		return Entry{}, t.wrap(fmt.Sprintf("read entry %d", seq), err)
	}
	return e, nil
}

// Find returns the entry with this ID, and whether there is one.
func (t *Tx) Find(id string) (Entry, bool, error) {
	if id == "" {
		return Entry{}, false, nil
	}
	key, err := t.h.get(bucketIDs, []byte(id))
	if err != nil {
		return Entry{}, false, t.wrap("find entry "+id, err)
	}
	if key == nil {
		return Entry{}, false, nil
	}
	e, err := t.indexed(key)
	if err == nil && e.ID != id {
		err = fmt.Errorf("%w: the index of IDs names another entry", ErrDamaged)
	}
	if err != nil {
		return Entry{}, false, t.wrap("find entry "+id, err)
	}
	return e, true, nil
}

func (t *Tx) indexed(key []byte) (Entry, error) {
	if len(key) != 8 {
		return Entry{}, fmt.Errorf("%w: the index of IDs is unreadable", ErrDamaged)
	}
	e, err := t.Get(binary.BigEndian.Uint64(key))
	if errors.Is(err, ErrNoEntry) {
		err = fmt.Errorf("%w: the index of IDs names an entry that is not there", ErrDamaged)
	}
	return e, err
}

// Since yields the entries after seq in order, up to the head at the time of
// the call. It stops at the first error, which it yields.
func (t *Tx) Since(seq uint64) iter.Seq2[Entry, error] {
	last := t.head.Seq
	return func(yield func(Entry, error) bool) {
		for next := seq + 1; next <= last; next++ {
			e, err := t.Get(next)
			if !yield(e, err) || err != nil {
				return
			}
		}
	}
}

func (t *Tx) wrap(doing string, err error) error {
	return fmt.Errorf("%s in journal %s: %w", doing, t.path, classify(err, forWriting))
}
