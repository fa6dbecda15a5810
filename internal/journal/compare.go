package journal

import (
	"encoding/binary"
	"errors"
	"os"
)

// contents is what can be read of a journal, whatever its state.
type contents struct {
	id      string
	head    Head   // the zero Head if it cannot be read
	entries []Hash // by sequence, from 1; the zero Hash where one cannot be read
}

// readContents reads with the bounds of Verify and comes back from any damage.
// It returns ErrNewer, and ErrNotOurs or ErrDamaged if nothing can be told.
func readContents(path string) (contents, error) {
	f, err := os.Open(path)
	if err != nil {
		return contents{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return contents{}, err
	}
	headers, err := readHeaders(f, info.Size())
	if err != nil {
		return contents{}, err
	}
	t := newTree(f, headers.newest, func(string, ...any) {}) // Verify is there to report
	buckets := t.buckets(headers.newest.root)
	meta := make(map[string]string)
	t.visit(buckets, bucketMeta, func(e element) { meta[string(e.key)] = string(e.value) })
	if err := checkFormat(meta[string(keyFormat)]); errors.Is(err, ErrNewer) {
		return contents{}, err
	}
	c := contents{id: meta[string(keyID)]}
	most := headers.newest.highWater * headers.newest.pageSize / elementSize // entries that the file has room for
	if head, ok := decodeHead([]byte(meta[string(keyHead)])); ok && head.Seq <= most {
		c.head = head
	}
	t.visit(buckets, bucketEntries, func(e element) { c.take(e, most) })
	if c.id == "" && c.head == (Head{}) && len(c.entries) == 0 {
		return contents{}, ErrDamaged
	}
	return c, nil
}

func (c *contents) take(e element, most uint64) {
	if len(e.key) != 8 {
		return
	}
	seq := binary.BigEndian.Uint64(e.key)
	if seq == 0 || seq > most {
		return
	}
	for uint64(len(c.entries)) < seq {
		c.entries = append(c.entries, Hash{})
	}
	c.entries[seq-1] = sum(e.value)
}

// compare tells what the file at path has that the copy has not. An entry that
// cannot be read counts as missing from the copy only where the copy has none
// of that number.
func compare(path, copied string) (Difference, error) {
	after, err := readContents(copied)
	if err != nil {
		return Difference{}, err
	}
	d := Difference{Copy: after.head}
	before, err := readContents(path)
	switch {
	case errors.Is(err, ErrNotOurs), errors.Is(err, ErrDamaged):
		d.Unread = true
		return d, nil
	case err != nil:
		return Difference{}, err
	}
	for i, hash := range before.entries {
		if beyond := i >= len(after.entries); beyond || hash != (Hash{}) && hash != after.entries[i] {
			d.Lost++
		}
	}
	if last := uint64(max(len(before.entries), len(after.entries))); before.head.Seq > last {
		d.Lost += before.head.Seq - last // counted, and not to be read
	}
	d.Other = !sameLog(before, after)
	return d, nil
}

// sameLog goes by the first entry too: a file that was imported has an ID of
// its own. Where neither can be read nothing speaks against it.
func sameLog(a, b contents) bool {
	if a.id == b.id {
		return true
	}
	if len(a.entries) == 0 || len(b.entries) == 0 || a.entries[0] == (Hash{}) {
		return a.id == ""
	}
	return a.entries[0] == b.entries[0]
}
