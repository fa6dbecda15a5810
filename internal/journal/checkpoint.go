package journal

import (
	"bytes"
	"crypto/sha256"
)

var keyState = []byte("state")

// Checkpoint is a state that the caller folded from the entries up to Seq.
// It only saves time: whoever gets none folds from the first entry.
type Checkpoint struct {
	Seq  uint64
	Hash Hash // of entry Seq
	Data []byte
}

// A checkpoint is stored as its head, the SHA-256 of the data, and the data.
const checkpointHeader = 8 + sha256.Size + sha256.Size

// Checkpoint returns the stored checkpoint. It returns false if there is none,
// and also if it does not belong to this chain or its bytes were changed: what
// may be thrown away is not worth an error.
func (t *Tx) Checkpoint() (Checkpoint, bool) {
	stored, err := t.h.get(bucketCheckpoint, keyState)
	if err != nil {
		return Checkpoint{}, false
	}
	c, ok := decodeCheckpoint(stored)
	if !ok || !t.onChain(c) {
		return Checkpoint{}, false
	}
	return c, true
}

func decodeCheckpoint(stored []byte) (Checkpoint, bool) {
	if len(stored) < checkpointHeader {
		return Checkpoint{}, false
	}
	head, _ := decodeHead(stored[:8+sha256.Size])
	seal, data := stored[8+sha256.Size:checkpointHeader], stored[checkpointHeader:]
	got := sha256.Sum256(data)
	if !bytes.Equal(got[:], seal) {
		return Checkpoint{}, false
	}
	return Checkpoint{Seq: head.Seq, Hash: head.Hash, Data: data}, true
}

func (t *Tx) onChain(c Checkpoint) bool {
	if c.Seq == 0 {
		return c.Hash == Hash{}
	}
	raw, err := t.Raw(c.Seq)
	return err == nil && sum(raw) == c.Hash
}

// SetCheckpoint stores data as the state at the present head, in place of the
// checkpoint before.
func (t *Tx) SetCheckpoint(data []byte) error {
	seal := sha256.Sum256(data)
	stored := append(append(t.head.encode(), seal[:]...), data...)
	if err := t.h.put(bucketCheckpoint, keyState, stored); err != nil {
		return t.wrap("store checkpoint", err)
	}
	t.dirty = true
	return nil
}
