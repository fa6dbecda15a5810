package journal

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"golang.org/x/sync/semaphore"
)

// DefaultLockWait is how long a transaction waits for others before it gives
// up with ErrInUse.
const DefaultLockWait = 5 * time.Second

// Journal is a log on disk. It holds nothing open between transactions, needs
// no closing, and may be used by several goroutines at once.
type Journal struct {
	// LockWait replaces DefaultLockWait where it is not zero. Set it before
	// the first use.
	LockWait time.Duration

	path     string
	id       string
	lockPath string
	gate     *semaphore.Weighted
}

// Open returns the journal at path after reading that it is one and that this
// version understands it. It returns ErrNotExist, ErrNoPlace, ErrUnreadable,
// ErrNotOurs, ErrNewer, ErrDamaged or ErrInUse.
func Open(path string) (*Journal, error) {
	j, err := locate(path)
	if err != nil {
		return nil, fmt.Errorf("open journal %s: %w", path, err)
	}
	err = j.View(func(tx *Tx) (err error) {
		j.id, err = tx.text(keyID)
		return err
	})
	if err != nil {
		return nil, err
	}
	return j, nil
}

// locate prepares the locks for path and opens nothing. Two names of one file
// must share its locks, so they hang on the name with links resolved.
func locate(path string) (*Journal, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	real, err := filepath.EvalSymlinks(abs)
	if err != nil {
		if _, told := os.Stat(abs); told != nil { // of links in a circle the other has no cause to tell
			err = told
		}
		return nil, classify(err, forReading)
	}
	return &Journal{path: abs, lockPath: real + ".lock", gate: gateFor(real)}, nil
}

// Path returns the absolute name of the file.
func (j *Journal) Path() string { return j.path }

// ID returns the random text that was given to this file when it was made. An
// imported copy has another.
func (j *Journal) ID() string { return j.id }

// Update runs fn in the one write transaction there is. When it returns nil,
// everything that fn stored is on the disk. When fn or Update returns an
// error nothing was stored, with two exceptions that no log can avoid: power
// may fail after the commit and before the answer, and the disk may fail at
// the very last step, which is ErrUnsure. Doing it again is then harmless,
// because Append knows the entry's ID.
//
// Errors of fn are returned as they are. The Tx must not be used after fn
// returns, and fn must not start another transaction on the same journal.
func (j *Journal) Update(fn func(*Tx) error) error {
	return j.transact(forWriting, fn)
}

// View runs fn in a read transaction. Writers wait while it runs, so fn should
// take what it needs and return. The rules of Update hold here too.
func (j *Journal) View(fn func(*Tx) error) error {
	return j.transact(forReading, fn)
}

func (j *Journal) transact(m mode, fn func(*Tx) error) (err error) {
	// A page that cannot be read through the memory map is a fault; with this
	// it is a panic, which handle.try turns into ErrDamaged.
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))

	deadline := time.Now().Add(j.lockWait())
	unlock, err := j.lock(m, deadline)
	if err != nil {
		return j.wrap(m, err)
	}
	defer unlock()

	h, err := openWithin(j.path, m, deadline)
	if err != nil {
		return j.wrap(m, err)
	}
	defer func() {
		if closeErr := h.close(); err == nil && closeErr != nil {
			err = j.wrap(m, closeErr)
		}
	}()

	tx, err := begin(h, j.path, m)
	if err != nil {
		return j.wrap(m, err)
	}
	if err := fn(tx); err != nil {
		return err
	}
	if !tx.dirty && h.failed == nil { // a commit costs a sync and wakes every watcher
		return nil
	}
	if err := h.commit(); err != nil {
		return j.wrap(m, err)
	}
	if !h.isAt(j.path) {
		return j.wrap(m, ErrGone)
	}
	return nil
}

func (j *Journal) lockWait() time.Duration {
	if j.LockWait > 0 {
		return j.LockWait
	}
	return DefaultLockWait
}

func (j *Journal) wrap(m mode, err error) error {
	err = classify(err, m)
	if j.id != "" && errors.Is(err, ErrNotExist) {
		err = fmt.Errorf("%w: %w", ErrGone, err)
	}
	return fmt.Errorf("%s journal %s: %w", m, j.path, err)
}
