package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// Hash is the SHA-256 (FIPS 180-4) of an entry's stored bytes. The zero Hash
// stands before the first entry.
type Hash [sha256.Size]byte

// String returns all 64 hex digits.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// Short returns the first 8 hex digits, which people can compare by eye.
func (h Hash) Short() string { return h.String()[:8] }

// MarshalText writes the hash as hex digits.
func (h Hash) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, h[:]), nil }

// UnmarshalText reads 64 hex digits.
func (h *Hash) UnmarshalText(text []byte) error {
	if len(text) != hex.EncodedLen(len(h)) {
		return fmt.Errorf("hash has %d digits, not %d", len(text), hex.EncodedLen(len(h)))
	}
	if _, err := hex.Decode(h[:], text); err != nil {
		return fmt.Errorf("read hash: %w", err)
	}
	return nil
}

func sum(stored []byte) Hash { return sha256.Sum256(stored) }
