//go:build unix

package journal

import (
	"io/fs"
	"os"
	"syscall"
)

// own gives a file the group of another, and its owner. It need not succeed:
// the owner cannot be changed by anyone but root, who is the one that needs it.
func own(path string, like fs.FileInfo) {
	if owner, ok := like.Sys().(*syscall.Stat_t); ok {
		_ = os.Chown(path, -1, int(owner.Gid))
		_ = os.Chown(path, int(owner.Uid), -1)
	}
}
