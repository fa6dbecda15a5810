package journal

import "encoding/binary"

// Head names the newest entry. The zero Head is that of an empty journal.
type Head struct {
	Seq  uint64 `json:"seq"`
	Hash Hash   `json:"hash"`
}

func (h Head) encode() []byte { return append(seqKey(h.Seq), h.Hash[:]...) }

func decodeHead(b []byte) (h Head, ok bool) {
	if len(b) != 8+len(h.Hash) {
		return Head{}, false
	}
	h.Seq = binary.BigEndian.Uint64(b)
	copy(h.Hash[:], b[8:])
	return h, true
}

func seqKey(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }
