package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"bathside/internal/station"
)

// pages reports whether the file is whole, as verify finds it.
func (x *checkup) pages(ctx context.Context) bool {
	rep, err := station.Verify(x.path)
	if err != nil && !errors.Is(err, station.ErrDamaged) {
		x.mend("file", "", "%s.", x.faultOf(err).Say)
		return false
	}
	found := rep.Findings
	if say := pagesSay(ctx, x.path); say != "" {
		found = append(found, say)
	}
	if len(found) == 0 {
		x.fine("file", "The log book %s is whole: %s, %s, seal number %s.", x.path, countLines(uint64(rep.Entries)), sizeSay(uint64(x.info.Size())), rep.Head.Hash)
		return true
	}
	x.findings = append(x.findings, finding{
		ID: "file", State: stateDamaged, Do: x.cure(),
		Say: x.path + " is damaged: " + strings.Join(found, "; ") + ".",
	})
	return false
}

// cure is what to do about a damaged file.
func (x *checkup) cure() string {
	const keep = "keep the file, and write on paper until this is mended; "
	dir := filepath.Join(filepath.Dir(x.real), backupsName)
	kept, err := filepath.Glob(filepath.Join(dir, "*"+filepath.Ext(x.path)))
	for i := len(kept) - 1; err == nil && i >= 0; i-- {
		if _, bad := station.Verify(kept[i]); bad == nil {
			return keep + "put the newest whole backup back: bathside restore " + kept[i]
		}
	}
	return keep + "put a backup back with bathside restore FILE; there is none that is whole in " + dir
}

// lockFile looks at the file that writers queue on.
func (x *checkup) lockFile() {
	path := x.real + ".lock"
	info, err := os.Lstat(path)
	switch {
	case notThere(err):
		x.fine("lock", "There is no lock file yet: the first line makes it.")
		return
	case err != nil || !info.Mode().IsRegular():
		x.mend("lock", "move "+path+" away; the next line makes a new one", "%s is not a lock file, and no line can be logged.", path)
		return
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		x.mend("lock", "give this account the right to write "+path+", as it has for the station file", "The lock file %s cannot be written by this account, so no line can be logged.", path)
		return
	}
	f.Close()
	if hasModes && info.Mode().Perm() != x.info.Mode().Perm() {
		x.mend("lock", fmt.Sprintf("chmod %o %s", x.info.Mode().Perm()&0o770, path), "The lock file has mode %s and the station file %s: who may write the one and not the other can log nothing.", modeSay(info), modeSay(x.info))
		return
	}
	x.fine("lock", "The lock file is as it should be.")
}

// leftovers are files of programs that were stopped.
func (x *checkup) leftovers() {
	dir := filepath.Dir(x.real)
	var left []string
	for _, dir := range []string{dir, filepath.Join(dir, backupsName)} {
		drafts, err := station.Drafts(dir)
		if err != nil && !notThere(err) {
			x.mend("leftovers", "give this account the right to read it", "The folder %s cannot be read.", dir)
		}
		left = append(left, drafts...)
	}
	if len(left) > 0 {
		x.mend("leftovers", "if no backup, import or restore is running now, remove: "+strings.Join(left, " "),
			"A program was stopped while it made a file; what it left is not part of the log book.")
	}
}

// ownCatalog reads the station's own item and soap types.
func (x *checkup) ownCatalog() {
	_, err := x.catalog()
	own, readErr := x.readOwn()
	switch {
	case err != nil:
		x.mend("catalog", "mend that line; until then only backup, restore, verify and doctor work", "%s.", x.faultOf(err).Say)
	case readErr == nil && len(own) > 0:
		var names []string
		for _, file := range own {
			names = append(names, filepath.Base(file.File))
		}
		x.fine("catalog", "The station's own catalog can be read: %s.", strings.Join(names, ", "))
	default:
		x.fine("catalog", "The station has no item or soap types of its own.")
	}
}
