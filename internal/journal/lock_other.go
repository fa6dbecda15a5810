//go:build !unix || solaris || aix

package journal

import "time"

// lockSidecar does nothing where the kernel has no queue for a file lock:
// bbolt's own lock excludes the others, and openWithin waits for it.
func (j *Journal) lockSidecar(mode, time.Time) (unlock func(), err error) {
	return func() {}, nil
}
