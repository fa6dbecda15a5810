package journal

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash/maphash"
	"strings"
)

// verifier goes through the buckets and gathers the report.
type verifier struct {
	Report
	more int // findings beyond maxFindings

	checkpoint Checkpoint

	// ids has, by sequence, a fingerprint of the ID that the index names; 0
	// for none. Keeping the IDs themselves would take five times the memory.
	ids  []uint64
	seed maphash.Seed

	last    Head   // the entry before
	lastRaw []byte // its bytes
	seal    []byte // its hash in the digits that the next entry carries
}

func (v *verifier) find(format string, args ...any) {
	if len(v.Findings) == maxFindings {
		v.more++
		return
	}
	v.Findings = append(v.Findings, fmt.Sprintf(format, args...))
}

func (v *verifier) file(t *tree, h header) error {
	buckets := t.buckets(h.root)
	meta := make(map[string][]byte)
	t.visit(buckets, bucketMeta, func(e element) {
		meta[string(e.key)] = append([]byte(nil), e.value...)
	})
	if err := checkFormat(string(meta[string(keyFormat)])); errors.Is(err, ErrNewer) {
		return err
	} else if err != nil {
		// With our buckets in it, it is ours and something happened to it.
		if len(v.Findings) == 0 && !isOurs(buckets) {
			return err
		}
		v.find("the format cannot be read: %v", err)
	}
	if !soundID(string(meta[string(keyID)])) {
		v.find("the ID that the file was given when it was made cannot be read")
	}
	if len(meta) > 3 {
		v.find("there is a key in bucket meta that does not belong there")
	}
	head, ok := decodeHead(meta[string(keyHead)])
	if !ok {
		v.find("the head cannot be read")
	}
	v.Head = head

	t.visit(buckets, bucketCheckpoint, v.readCheckpoint)
	most := h.highWater * h.pageSize / elementSize // entries that the file has room for
	t.visit(buckets, bucketIDs, func(e element) { v.readID(e, most) })
	t.visit(buckets, bucketEntries, v.entry)
	v.finish()
	v.sides(t, buckets)
	return nil
}

// soundID reports whether an ID may come from rand.Text. Nothing vouches for
// which one it was.
func soundID(id string) bool {
	return len(id) >= 26 && strings.Trim(id, "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567") == ""
}

func isOurs(buckets map[string]bucketPages) bool {
	for _, name := range allBuckets {
		if _, ok := buckets[string(name)]; !ok {
			return false
		}
	}
	return true
}

func (v *verifier) readCheckpoint(e element) {
	c, ok := decodeCheckpoint(e.value)
	switch {
	case !bytes.Equal(e.key, keyState):
		v.find("there is a key in bucket checkpoint that does not belong there")
	case !ok:
		v.find("the checkpoint does not match its own seal: its bytes were changed")
	case c.Seq > v.Head.Seq:
		v.find("the checkpoint is of entry %d, beyond the head", c.Seq)
	case c.Seq == 0 && c.Hash != Hash{}:
		v.find("the checkpoint does not say which entry it was made at")
	}
	v.checkpoint = Checkpoint{Seq: c.Seq, Hash: c.Hash}
}

func (v *verifier) readID(e element, most uint64) {
	if len(e.value) != 8 {
		v.find("the index of IDs is unreadable at %q", e.key)
		return
	}
	seq := binary.BigEndian.Uint64(e.value)
	if seq == 0 || seq > most {
		v.find("the index of IDs names entry %d, which cannot be", seq)
		return
	}
	for uint64(len(v.ids)) <= seq {
		v.ids = append(v.ids, 0)
	}
	if v.ids[seq] != 0 {
		v.find("the index of IDs names entry %d twice", seq)
	}
	v.ids[seq] = v.fingerprint(e.key)
}

func (v *verifier) fingerprint(id []byte) uint64 {
	return max(maphash.Bytes(v.seed, id), 1)
}

// entry compares one entry with the one before. The walk brings them in order
// of their keys.
func (v *verifier) entry(e element) {
	v.Entries++
	if len(e.key) != 8 {
		v.find("there is an entry under the key %x, which is no sequence", e.key)
		return
	}
	seq, raw := binary.BigEndian.Uint64(e.key), e.value
	o, ok := parseOpening(raw)
	switch {
	case !ok:
		v.find("entry %d is not laid out as an entry is: its bytes were changed", seq)
	case o.seq != seq:
		v.find("entry %d says that it is entry %d", seq, o.seq)
	}
	if ok {
		v.checkID(seq, o.id)
	}
	v.seal = hex.AppendEncode(v.seal[:0], v.last.Hash[:])
	switch {
	case seq <= v.last.Seq:
		v.find("entry %d stands after entry %d", seq, v.last.Seq)
	case seq > v.last.Seq+1:
		v.find("%s", missing(v.last.Seq+1, seq-1))
	case ok && !bytes.Equal(o.prev, v.seal):
		v.find("%s", brokenSeal(seq))
		v.checkJSON()
	}
	v.last, v.lastRaw = Head{Seq: seq, Hash: sum(raw)}, append(v.lastRaw[:0], raw...)
	if seq == v.checkpoint.Seq && v.last.Hash != v.checkpoint.Hash {
		v.find("the checkpoint does not match entry %d, which it was made at", seq)
	}
}

func (v *verifier) checkID(seq uint64, id []byte) {
	if seq >= uint64(len(v.ids)) || v.ids[seq] != v.fingerprint(id) {
		v.find("entry %d is not in the index of IDs under its ID %s", seq, id)
	}
	if seq < uint64(len(v.ids)) {
		v.ids[seq] = 0
	}
}

// checkJSON looks closer at the entry before, whose seal is broken or which
// has none yet.
func (v *verifier) checkJSON() {
	if v.last.Seq > 0 && !json.Valid(v.lastRaw) {
		v.find("entry %d is not valid JSON", v.last.Seq)
	}
}

// finish compares what was read with the head and the index.
func (v *verifier) finish() {
	switch last := v.last; {
	case last.Seq < v.Head.Seq:
		v.find("%s", missing(last.Seq+1, v.Head.Seq))
	case last.Seq > v.Head.Seq:
		v.find("entry %d stands beyond the head, which names entry %d", last.Seq, v.Head.Seq)
	case last.Hash != v.Head.Hash:
		v.find("entry %d does not match the seal stored in the head: one of the two was changed", last.Seq)
	}
	v.checkJSON()
	for seq, id := range v.ids {
		if id != 0 {
			v.find("the index of IDs names entry %d, which is not there under that ID", seq)
		}
	}
}

func missing(first, last uint64) string {
	if first == last {
		return fmt.Sprintf("entry %d is missing", first)
	}
	return fmt.Sprintf("entries %d to %d are missing", first, last)
}

// brokenSeal says that the entry seq carries a hash that the one before it
// does not have.
func brokenSeal(seq uint64) string {
	if seq == 1 {
		return "entry 1 carries the seal of an entry before it, but it is the first"
	}
	return fmt.Sprintf("entry %d does not match the seal stored in entry %d: one of the two was changed", seq-1, seq)
}
