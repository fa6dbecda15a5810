//go:build unix

package cli

import (
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
	"syscall"
)

// hasModes says whether files here have permission bits.
const hasModes = true

// rights looks at who may read and write. One account owns the file (0600), or
// a group shares it (0660) and its folder (2770).
func (x *checkup) rights() {
	dir := filepath.Dir(x.real)
	folder, err := os.Stat(dir)
	if err != nil {
		x.mend("rights", "give this account the right to read it", "The folder %s cannot be looked at.", dir)
		return
	}
	before := len(x.findings)
	file := x.info.Mode().Perm()
	if file&0o007 != 0 {
		x.mend("rights", "chmod o= "+x.real, "Everybody on this machine may use the station file (mode %s), the hashes of PINs in it too.", modeSay(x.info))
	}
	if folder.Mode().Perm()&0o002 != 0 && folder.Mode()&os.ModeSticky == 0 {
		x.mend("folder", "chmod o-w "+dir, "Everybody on this machine may remove or replace the station file (its folder has mode %s).", modeSay(folder))
	}
	if file&0o020 != 0 && (folder.Mode().Perm()&0o070 != 0o070 || folder.Mode()&os.ModeSetgid == 0) {
		x.mend("folder", "chmod 2770 "+dir, "The group %s may write the station file, but its folder (mode %s) does not let it make the files beside it.", groupOf(x.info), modeSay(folder))
	}
	if f, err := os.OpenFile(x.real, os.O_RDWR, 0); err != nil {
		x.mend("owner", "log in as "+ownerOf(x.info)+", or have the file given to you: chown", "This account may not write the station file, which is that of %s (mode %s): it can look and export only.", ownerOf(x.info), modeSay(x.info))
	} else {
		f.Close()
	}
	if len(x.findings) == before {
		x.fine("rights", "%s", sharedSay(x.info))
	}
}

func sharedSay(info os.FileInfo) string {
	switch perm := info.Mode().Perm(); {
	case perm&0o020 != 0:
		return fmt.Sprintf("The file is that of %s, and the group %s may write it too.", ownerOf(info), groupOf(info))
	case perm&0o040 != 0:
		return fmt.Sprintf("The file is that of %s, and the group %s may read it.", ownerOf(info), groupOf(info))
	}
	return fmt.Sprintf("The file is that of %s alone.", ownerOf(info))
}

// modeSay is the mode as chmod takes it.
func modeSay(info os.FileInfo) string {
	mode := uint32(info.Mode().Perm())
	if info.Mode()&os.ModeSetgid != 0 {
		mode |= 0o2000
	}
	if info.Mode()&os.ModeSticky != 0 {
		mode |= 0o1000
	}
	return fmt.Sprintf("%o", mode)
}

func ownerOf(info os.FileInfo) string {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return "another account"
	}
	id := strconv.Itoa(int(s.Uid))
	if u, err := user.LookupId(id); err == nil {
		return u.Username
	}
	return "account " + id
}

func groupOf(info os.FileInfo) string {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return "of the file"
	}
	id := strconv.Itoa(int(s.Gid))
	if g, err := user.LookupGroupId(id); err == nil {
		return g.Name
	}
	return id
}

// sameDisk reports whether two files are on one disk, and whether that can be
// told.
func sameDisk(a, b string) (same, known bool) {
	var first, second syscall.Stat_t
	if syscall.Stat(a, &first) != nil || syscall.Stat(b, &second) != nil {
		return false, false
	}
	return first.Dev == second.Dev, true
}
