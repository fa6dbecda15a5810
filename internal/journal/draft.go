package journal

import (
	"crypto/rand"
	"os"
	"path/filepath"
	"strings"
)

// draftOf is a name beside path that nobody looks for, for a file that is not
// whole yet.
func draftOf(path string) string {
	dir, name := filepath.Split(filepath.Clean(path))
	return filepath.Join(dir, "."+name+"."+rand.Text())
}

// draftLength is that of rand.Text.
const draftLength = 26

// Drafts lists what was left in a directory by programs that were stopped while
// they made a journal or a copy of one. A file of a program that is still at it
// is among them.
func Drafts(dir string) ([]string, error) {
	found, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var drafts []string
	for _, f := range found {
		if isDraft(f.Name()) && f.Type().IsRegular() {
			drafts = append(drafts, filepath.Join(dir, f.Name()))
		}
	}
	return drafts, nil
}

func isDraft(name string) bool {
	dot := strings.LastIndexByte(name, '.')
	if dot < 2 || name[0] != '.' || len(name)-dot-1 != draftLength {
		return false
	}
	return strings.Trim(name[dot+1:], "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567") == ""
}
