package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"slices"
	"strings"
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
	// ErrUnreadable means that this account may not even read the file.
	ErrUnreadable = errors.New("journal cannot be read")
	// ErrFull means that the disk has no room, or the file may not grow. What
	// was there is untouched.
	ErrFull = errors.New("disk is full")
	// ErrDisk means that the disk, or the network it is behind, failed.
	ErrDisk = errors.New("disk failed")
	// ErrUnsure means that the last step of a write failed: it can be read now,
	// and whether it lasts is not known. Doing it again with the same IDs is
	// harmless. The cause is in the error too.
	ErrUnsure = errors.New("not known whether it was stored")
	// ErrGone means that the file was there when the journal was opened and is
	// not any more, or was taken away while it was written to: the journal that
	// bears the name now, if any, has nothing of that.
	ErrGone = errors.New("journal is gone")
	// ErrNoPlace means that no file can have that name.
	ErrNoPlace = errors.New("no file can be there")
	// ErrNoEntry means that no entry has the sequence asked for.
	ErrNoEntry = errors.New("no such entry")
)

// windowsDiskFull is ERROR_DISK_FULL (System Error Codes, Win32 API), which
// Go does not fold into ENOSPC.
const windowsDiskFull = syscall.Errno(112)

// cause says which of our errors an error from below amounts to.
type cause struct{ below, ours error }

var causes = []cause{
	{fs.ErrNotExist, ErrNotExist},
	{fs.ErrExist, ErrExists},
	{syscall.ENOSPC, ErrFull},
	{syscall.EDQUOT, ErrFull},
	{syscall.EFBIG, ErrFull},
	{syscall.EIO, ErrDisk},
	{syscall.ESTALE, ErrDisk},
	{syscall.ENOTDIR, ErrNoPlace},
	{syscall.ELOOP, ErrNoPlace},
	{syscall.ENAMETOOLONG, ErrNoPlace},
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
	if slices.ContainsFunc(causes, func(c cause) bool { return errors.Is(err, c.ours) }) {
		return err
	}
	for _, c := range causes {
		if errors.Is(err, c.below) {
			return fmt.Errorf("%w: %w", c.ours, err)
		}
	}
	if runtime.GOOS == "windows" && errors.Is(err, windowsDiskFull) {
		return fmt.Errorf("%w: %w", ErrFull, err)
	}
	// A file that may not even be read is not one to "look at only", so this
	// one depends on what was tried.
	switch {
	case !errors.Is(err, fs.ErrPermission):
		return err
	case m == forReading || m == forChecking:
		return fmt.Errorf("%w: %w", ErrUnreadable, err)
	}
	return fmt.Errorf("%w: %w", ErrReadOnly, err)
}

// growthError gives the error of a commit its cause back where the file could
// not be made longer: of that bbolt keeps the text only (db.go, grow).
func growthError(err error) error {
	if errors.As(err, new(syscall.Errno)) || !strings.HasPrefix(err.Error(), "file ") {
		return err
	}
	for _, c := range causes {
		if errno, ok := c.below.(syscall.Errno); ok && strings.HasSuffix(err.Error(), errno.Error()) {
			return fmt.Errorf("%w: %w", errno, err)
		}
	}
	return err
}
