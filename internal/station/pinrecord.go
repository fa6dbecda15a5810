package station

import (
	"encoding/json"
	"errors"
	"time"
	"unicode"

	"bathside/internal/bath"
	"bathside/internal/journal"
)

// pinTable is the side table of the journal that PINs are kept in, as hashes:
// they are never in a line of the log book nor in an export.
const pinTable = "pins"

// tries is how many wrong tries in a row lock a PIN.
const tries = 5

// lockTimes grow from lock to lock until a right try; the last one stays.
// Common practice, no source.
var lockTimes = []time.Duration{time.Minute, 5 * time.Minute, 15 * time.Minute, time.Hour}

// pinRecord is what is kept of one member's PIN.
type pinRecord struct {
	Hash   string    `json:"hash"` // of package pin
	Set    time.Time `json:"set"`
	Wrong  int       `json:"wrong,omitzero"`  // wrong tries since the last right one or lock
	Locks  int       `json:"locks,omitzero"`  // since the last right try
	Locked time.Time `json:"locked,omitzero"` // when the last of them began
}

// until is the end of the last lock; the zero time where there was none.
func (r pinRecord) until() time.Time {
	if r.Locks < 1 {
		return time.Time{}
	}
	return r.Locked.Add(lockTimes[min(r.Locks, len(lockTimes))-1])
}

// nextLock is how long the lock will be that comes of the next wrong tries.
func (r pinRecord) nextLock() time.Duration {
	return lockTimes[min(r.Locks, len(lockTimes)-1)]
}

// wrong counts one try.
func (r *pinRecord) wrong(now time.Time) {
	if r.Wrong++; r.Wrong >= tries {
		r.Wrong, r.Locked = 0, now.UTC()
		r.Locks++
	}
}

var errPINRecord = errors.New("the record of a PIN cannot be read")

// readPIN gives nil where there is none. It is errPINRecord or ErrDamaged
// where what is there is not what was once written.
func readPIN(tx *journal.Tx, name string) (*pinRecord, error) {
	data, err := tx.Side(pinTable).Get(pinKey(name))
	if err != nil || data == nil {
		return nil, err
	}
	r := new(pinRecord)
	if err := json.Unmarshal(data, r); err != nil || r.Wrong < 0 || r.Locks < 0 {
		return nil, errPINRecord // the JSON error would quote it
	}
	return r, nil
}

func writePIN(tx *journal.Tx, name string, r pinRecord) error {
	data, err := json.Marshal(r)
	if err != nil {
		return err
	}
	return tx.Side(pinTable).Put(pinKey(name), data)
}

// dropPIN takes the PIN of somebody who leaves, lest it fits whoever has the
// name next.
func dropPIN(tx *journal.Tx, e bath.Entry) error {
	if m, ok := e.Body.(*bath.Member); ok && m.Left {
		return tx.Side(pinTable).Delete(pinKey(m.Name))
	}
	return nil
}

// hasPIN counts a damaged one: it must be replaced, not made for the first
// time.
func hasPIN(tx *journal.Tx, m bath.Member) (bool, error) {
	r, err := readPIN(tx, m.Name)
	if errors.Is(err, errPINRecord) || errors.Is(err, ErrDamaged) {
		return true, nil
	}
	return r != nil, err
}

// pinKey is the same for two names where the roster takes them for one, which
// it does where strings.EqualFold does.
func pinKey(name string) string {
	folded := []rune(name)
	for i, r := range folded {
		for next := unicode.SimpleFold(r); next != r; next = unicode.SimpleFold(next) {
			folded[i] = min(folded[i], next)
		}
	}
	return string(folded)
}
