package cli

import "syscall"

// mntLocal is MNT_LOCAL of statfs(2): the file system is kept by this machine.
const mntLocal = 0x1000

func diskOf(dir string) diskState {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return diskState{}
	}
	d := diskState{free: s.Bavail * uint64(s.Bsize), known: true}
	if s.Flags&mntLocal == 0 {
		for _, c := range s.Fstypename {
			if c == 0 {
				break
			}
			d.network += string(rune(c))
		}
	}
	return d
}
