//go:build unix && !solaris && !aix

package journal

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"
)

// lockSidecar takes the lock file beside the journal: shared for reading,
// exclusive for writing. The kernel wakes whoever waits, so with 50 processes
// of 20 entries each the longest wait is a quarter of that with polling alone.
//
// bbolt's own lock, taken afterwards, is what keeps the file safe; this one
// only keeps the queue short. So a reader that finds no lock file, or may not
// open it, goes without. A writer that cannot have one may not write here.
func (j *Journal) lockSidecar(m mode, deadline time.Time) (unlock func(), err error) {
	f, err := j.openSidecar(m)
	if m != forWriting && (errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrPermission)) {
		return func() {}, nil
	}
	if err != nil {
		return nil, err
	}
	how := syscall.LOCK_SH
	if m == forWriting {
		how = syscall.LOCK_EX
	}
	if err := flock(f, how, deadline); err != nil {
		return nil, err
	}
	return func() { _ = f.Close() }, nil // closing unlocks
}

// openSidecar opens the lock file. Only writers make one, and they give it the
// journal's owner and permissions: a look at the log by root must not lock out
// the crew.
func (j *Journal) openSidecar(m mode) (*os.File, error) {
	if m != forWriting {
		return os.Open(j.lockPath)
	}
	f, err := os.OpenFile(j.lockPath, os.O_RDWR, 0)
	if !errors.Is(err, fs.ErrNotExist) {
		return f, err
	}
	info, err := os.Stat(j.path)
	if err != nil {
		return nil, err
	}
	f, err = os.OpenFile(j.lockPath, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	// Neither must succeed: the owner cannot be changed by anyone but root,
	// who is the one that needs it.
	_ = f.Chmod(info.Mode().Perm())
	if owner, ok := info.Sys().(*syscall.Stat_t); ok {
		_ = f.Chown(int(owner.Uid), int(owner.Gid))
	}
	return f, nil
}

// flock locks f, or closes it and returns an error. The kernel's wait cannot
// be cut short, so it waits in a goroutine, which gives back a lock that
// comes after the deadline.
func flock(f *os.File, how int, deadline time.Time) error {
	err := flockFD(f, how|syscall.LOCK_NB)
	if err == nil {
		return nil
	}
	if !errors.Is(err, syscall.EWOULDBLOCK) {
		_ = f.Close()
		return err
	}
	granted := make(chan error)
	late := make(chan struct{})
	go func() {
		err := flockFD(f, how)
		if err != nil {
			_ = f.Close()
		}
		select {
		case granted <- err:
		case <-late:
			_ = f.Close()
		}
	}()
	timer := time.NewTimer(time.Until(deadline))
	defer timer.Stop()
	select {
	case err := <-granted:
		return err
	case <-timer.C:
		close(late)
		return ErrInUse
	}
}

func flockFD(f *os.File, how int) error {
	for {
		err := syscall.Flock(int(f.Fd()), how)
		if !errors.Is(err, syscall.EINTR) {
			return err
		}
	}
}
