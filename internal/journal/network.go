package journal

import (
	"fmt"
	"os"
	"path/filepath"
)

// OnNetwork reports whether the file at path, or the folder where it would be,
// lies on a network share, and gives a sentence that says so. Where the system
// does not tell, it is false.
//
// Locks on a share may hold on one machine only: two that write at once could
// then damage the file. The journal works there all the same, so this is a
// warning and no error.
func OnNetwork(path string) (say string, on bool) {
	return onShare(path, shareAt(path))
}

func onShare(path, share string) (say string, on bool) {
	if share == "" {
		return "", false
	}
	return fmt.Sprintf("%s is on a network share (%s): let one computer at a time use it, or keep it on a disk of the workstation and back it up to the share", path, share), true
}

// shareAt is the kind of share that path is on, empty for a disk. Of a file
// that is not there yet the nearest folder above it counts.
func shareAt(path string) string {
	abs, err := filepath.Abs(path)
	if err != nil {
		return ""
	}
	for {
		if _, err := os.Stat(abs); err == nil {
			return shareOf(abs)
		}
		above := filepath.Dir(abs)
		if above == abs {
			return ""
		}
		abs = above
	}
}
