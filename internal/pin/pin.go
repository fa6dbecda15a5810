// Package pin turns a PIN into text that it can be checked against and not
// read from, and says which PINs are too easy to guess.
//
// The text is argon2id (RFC 9106) with a salt of its own, as a PHC string:
// "$argon2id$v=19$m=19456,t=2,p=1$salt$hash". It slows guessing down and does
// not stop it: whoever has the text tries all PINs of four digits in minutes.
// Counting wrong tries is the caller's business.
package pin

import (
	"crypto/rand"
	"crypto/subtle"

	"golang.org/x/crypto/argon2"
)

// Cost is what one hash takes.
type Cost struct {
	MemoryKiB uint32
	Passes    uint32
	Lanes     uint8
}

// Standard is the second of the equal choices for argon2id in the OWASP
// Password Storage Cheat Sheet: 19 MiB, two passes, one lane.
var Standard = Cost{MemoryKiB: 19 * 1024, Passes: 2, Lanes: 1}

// RFC 9106, section 4: a salt of 128 bits is enough for all, and so is a tag
// of 256.
const (
	saltSize = 16
	hashSize = 32
)

// Hash gives the text to keep of a PIN. It takes any PIN; ask Good first.
func (c Cost) Hash(pin string) string {
	salt := make([]byte, saltSize)
	_, _ = rand.Read(salt) // never fails: it would end the program
	return phc{c, salt, c.hash(pin, salt, hashSize)}.String()
}

// Check reports whether encoded is of this PIN, in the same time wherever they
// differ. The error is ErrUnreadable where encoded is not what Hash gives, and
// then nothing was compared.
func Check(encoded, pin string) (bool, error) {
	kept, err := parse(encoded)
	if err != nil {
		return false, err
	}
	got := kept.hash(pin, kept.salt, len(kept.key))
	return subtle.ConstantTimeCompare(got, kept.key) == 1, nil
}

func (c Cost) hash(pin string, salt []byte, size int) []byte {
	return argon2.IDKey([]byte(pin), salt, c.Passes, c.MemoryKiB, c.Lanes, uint32(size))
}
