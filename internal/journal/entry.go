package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// Entry is one line of the journal.
type Entry struct {
	// Prev is the hash of the entry before this one, zero for the first. It
	// stands first so that the chain can be checked without decoding.
	Prev Hash `json:"prev"`
	// Seq counts from 1 without gaps.
	Seq uint64 `json:"seq"`
	// ID is minted by the caller, one for each thing to record, and makes
	// Append idempotent: letters, digits, - and _, at most 64; a ULID for
	// choice, because those sort as they were made.
	ID     string    `json:"id"`
	At     time.Time `json:"at"`     // when it happened
	Logged time.Time `json:"logged"` // when it was written down
	By     string    `json:"by"`
	Bath   string    `json:"bath,omitempty"`
	Kind   string    `json:"kind"`
	// Body is the caller's. A nil Body is stored as null.
	Body json.RawMessage `json:"body"`
}

// maxEntry bounds the stored bytes of an entry. Ours take a few hundred; the
// bound keeps a runaway caller, or a hostile import, from filling the disk or
// the memory with one line.
const maxEntry = 1 << 20

// maxID is generous: a ULID has 26 characters.
const maxID = 64

func (e Entry) encode() ([]byte, error) {
	if !validID(e.ID) {
		return nil, fmt.Errorf("entry ID %q: want 1 to %d letters, digits, - or _", e.ID, maxID)
	}
	if e.Kind == "" {
		return nil, errors.New("entry has no kind")
	}
	raw, err := json.Marshal(e)
	if err != nil {
		return nil, fmt.Errorf("encode entry: %w", err)
	}
	if len(raw) > maxEntry {
		return nil, fmt.Errorf("entry takes %d bytes, at most %d are allowed", len(raw), maxEntry)
	}
	return raw, nil
}

func decode(raw []byte) (Entry, error) {
	var e Entry
	if err := json.Unmarshal(raw, &e); err != nil {
		return Entry{}, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return e, nil
}

func validID(id string) bool {
	if id == "" || len(id) > maxID {
		return false
	}
	for _, c := range []byte(id) {
		switch {
		case '0' <= c && c <= '9', 'A' <= c && c <= 'Z', 'a' <= c && c <= 'z', c == '-', c == '_':
		default:
			return false
		}
	}
	return true
}

// opening is what every stored entry begins with, as slices of it.
type opening struct {
	prev []byte // 64 hex digits, if the entry is sound
	seq  uint64
	id   []byte
}

// parseOpening reads the first three fields as encode lays them out, without
// decoding JSON: decoding takes 2.6 us an entry, hashing 0.3.
func parseOpening(raw []byte) (o opening, ok bool) {
	const digits = 2 * len(Hash{})
	rest, ok := bytes.CutPrefix(raw, []byte(`{"prev":"`))
	if !ok || len(rest) < digits {
		return opening{}, false
	}
	o.prev = rest[:digits]
	if rest, ok = bytes.CutPrefix(rest[digits:], []byte(`","seq":`)); !ok {
		return opening{}, false
	}
	for len(rest) > 0 && '0' <= rest[0] && rest[0] <= '9' {
		o.seq = o.seq*10 + uint64(rest[0]-'0')
		rest = rest[1:]
	}
	if rest, ok = bytes.CutPrefix(rest, []byte(`,"id":"`)); !ok {
		return opening{}, false
	}
	o.id, rest, ok = bytes.Cut(rest, []byte(`"`))
	return o, ok && bytes.HasSuffix(rest, []byte("}"))
}
