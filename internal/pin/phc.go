package pin

import (
	"encoding/base64"
	"errors"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"
)

// ErrUnreadable means that the kept text of a PIN is not one.
var ErrUnreadable = errors.New("what is kept of the PIN cannot be read")

// phc is a hash with all that is needed to make it again.
type phc struct {
	Cost
	salt, key []byte
}

// phcFormat is the PHC string format as the reference implementation of
// argon2 writes it; base64 stands without padding.
const phcFormat = "$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s"

var digits64 = base64.RawStdEncoding.Strict()

func (h phc) String() string {
	return fmt.Sprintf(phcFormat, argon2.Version, h.MemoryKiB, h.Passes, h.Lanes,
		digits64.EncodeToString(h.salt), digits64.EncodeToString(h.key))
}

// parse takes only what String writes, to the letter.
func parse(encoded string) (phc, error) {
	var h phc
	parts := strings.Split(encoded, "$")
	if len(parts) != 6 {
		return h, ErrUnreadable
	}
	if _, err := fmt.Sscanf(parts[3], "m=%d,t=%d,p=%d", &h.MemoryKiB, &h.Passes, &h.Lanes); err != nil {
		return h, ErrUnreadable
	}
	var saltErr, keyErr error
	h.salt, saltErr = digits64.DecodeString(parts[4])
	h.key, keyErr = digits64.DecodeString(parts[5])
	if saltErr != nil || keyErr != nil || !h.bearable() || h.String() != encoded {
		return h, ErrUnreadable
	}
	return h, nil
}

// bearable keeps a changed digit from taking all the memory of the machine.
// The bounds are ours; the least ones are those of RFC 9106, section 3.1.
func (h phc) bearable() bool {
	return within(h.MemoryKiB, 8, 64*1024) && within(h.Passes, 1, 16) && within(uint32(h.Lanes), 1, 4) &&
		within(uint32(len(h.salt)), 8, 64) && within(uint32(len(h.key)), 16, 64)
}

func within(n, least, most uint32) bool { return least <= n && n <= most }
