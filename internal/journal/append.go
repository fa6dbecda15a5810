package journal

import (
	"bytes"
	"fmt"

	"bathside/internal/jsonline"
)

// Append stores e as the newest entry and returns it as Get will. It sets
// Prev and Seq and leaves everything else to the caller. If an entry with e's
// ID is there already, Append stores nothing and returns that one, so a caller
// that got no answer may simply ask again.
func (t *Tx) Append(e Entry) (Entry, error) {
	if old, ok, err := t.Find(e.ID); ok || err != nil {
		return old, err
	}
	e.Prev, e.Seq = t.head.Hash, t.head.Seq+1
	raw, err := e.encode()
	if err != nil {
		return Entry{}, t.wrap("append", err)
	}
	if err := t.store(raw, e.ID); err != nil {
		return Entry{}, t.wrap("append", err)
	}
	return decode(raw)
}

// AppendRaw stores an entry exactly as another journal stored it (see Raw). It
// must be the next in the chain and its ID new, else AppendRaw stores nothing
// and returns ErrDamaged.
func (t *Tx) AppendRaw(raw []byte) (Entry, error) {
	e, err := t.appendRaw(raw)
	if err != nil {
		return Entry{}, t.wrap("append", err)
	}
	return e, nil
}

func (t *Tx) appendRaw(raw []byte) (Entry, error) {
	e, err := t.checkNext(raw)
	if err != nil {
		return Entry{}, err
	}
	return e, t.store(bytes.Clone(raw), e.ID)
}

func (t *Tx) checkNext(raw []byte) (Entry, error) {
	if len(raw) > maxEntry {
		return Entry{}, fmt.Errorf("%w: entry takes %d bytes, at most %d are allowed", ErrDamaged, len(raw), maxEntry)
	}
	e, err := decode(raw)
	if err != nil {
		return Entry{}, err
	}
	if err := jsonline.Check(raw); err != nil {
		return Entry{}, fmt.Errorf("%w: entry %d: %w", ErrDamaged, e.Seq, err)
	}
	o, ok := parseOpening(raw)
	switch {
	case !ok || o.seq != e.Seq || string(o.prev) != e.Prev.String() || string(o.id) != e.ID || !validID(e.ID) || e.Kind == "":
		return Entry{}, fmt.Errorf("%w: not laid out as an entry is", ErrDamaged)
	case e.Seq != t.head.Seq+1:
		return Entry{}, fmt.Errorf("%w: entry %d stands where entry %d belongs", ErrDamaged, e.Seq, t.head.Seq+1)
	case e.Prev != t.head.Hash:
		return Entry{}, fmt.Errorf("%w: %s", ErrDamaged, brokenSeal(e.Seq))
	}
	if old, ok, err := t.Find(e.ID); err != nil {
		return Entry{}, err
	} else if ok {
		return Entry{}, fmt.Errorf("%w: entry %d has the ID of entry %d", ErrDamaged, e.Seq, old.Seq)
	}
	return e, nil
}

// store writes the entry, its index and the head. A failure in the middle is
// remembered by the handle, which then commits nothing.
func (t *Tx) store(raw []byte, id string) error {
	next := Head{Seq: t.head.Seq + 1, Hash: sum(raw)}
	key := seqKey(next.Seq)
	if err := t.h.put(bucketEntries, key, raw); err != nil {
		return err
	}
	if err := t.h.put(bucketIDs, []byte(id), key); err != nil {
		return err
	}
	if err := t.h.put(bucketMeta, keyHead, next.encode()); err != nil {
		return err
	}
	t.head, t.dirty = next, true
	return nil
}
