//go:build unix

package cli

import (
	"os/signal"
	"syscall"
)

// ignoreFileLimit makes a write beyond the limit that a system may set for the
// size of files (ulimit -f, setrlimit(2)) an error like that of a full disk.
// Without it the system ends the process.
func ignoreFileLimit() { signal.Ignore(syscall.SIGXFSZ) }
