package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"syscall"

	berrors "go.etcd.io/bbolt/errors"
)

// Callers tell these apart with errors.Is. Every error of this package that
// has to do with a file also names the file.
var (
	// ErrInUse means that another process held the file for all of LockWait.
	ErrInUse = errors.New("journal is in use")
	// ErrExists means that there is already a file where a new one was wanted.
	ErrExists = errors.New("file already exists")
	// ErrNotExist means that there is no file.
	ErrNotExist = errors.New("journal does not exist")
	// ErrNotOurs means that the file is something else than a journal.
	ErrNotOurs = errors.New("file is not a journal")
	// ErrNewer means that a later version of the program wrote the file.
	// Nothing was written to it.
	ErrNewer = errors.New("journal was written by a newer version")
	// ErrDamaged means that the file, or the lines to import, are not what
	// was once written. A damaged file is never written to.
	ErrDamaged = errors.New("journal is damaged")
	// ErrReadOnly means that this account or this disk does not allow writing.
	ErrReadOnly = errors.New("journal cannot be written")
	// ErrFull means that the disk has no room. What was there is untouched.
	ErrFull = errors.New("disk is full")
	// ErrNoEntry means that no entry has the sequence asked for.
	ErrNoEntry = errors.New("no such entry")
)

// windowsDiskFull is ERROR_DISK_FULL (System Error Codes, Win32 API), which
// Go does not fold into ENOSPC.
const windowsDiskFull = syscall.Errno(112)

// causes says which of our errors an error from below amounts to.
var causes = []struct {
	below, ours error
}{
	{fs.ErrNotExist, ErrNotExist},
	{fs.ErrExist, ErrExists},
	{syscall.ENOSPC, ErrFull},
	{syscall.EDQUOT, ErrFull},
	{syscall.EROFS, ErrReadOnly},
	{berrors.ErrTxNotWritable, ErrReadOnly},
	{berrors.ErrTimeout, ErrInUse},
	{berrors.ErrInvalid, ErrNotOurs},
	{berrors.ErrVersionMismatch, ErrNotOurs},
	{berrors.ErrChecksum, ErrDamaged},
}

// classify puts the sentinel that callers look for in front of an error from
// below. Errors that are none of ours pass unchanged.
func classify(err error, m mode) error {
	for _, c := range causes {
		if errors.Is(err, c.ours) {
			return err
		}
		if errors.Is(err, c.below) {
			return fmt.Errorf("%w: %w", c.ours, err)
		}
	}
	if runtime.GOOS == "windows" && errors.Is(err, windowsDiskFull) {
		return fmt.Errorf("%w: %w", ErrFull, err)
	}
	// A file that may not even be read is not one to "look at only", so this
	// one depends on what was tried.
	if m != forReading && errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%w: %w", ErrReadOnly, err)
	}
	return err
}
