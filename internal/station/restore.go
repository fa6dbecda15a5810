package station

import (
	"path/filepath"
	"strings"
	"time"

	"bathside/internal/journal"
)

// Difference is what putting a backup back would change.
type Difference = journal.Difference

// AsideName is the name under which a log book is kept that a backup replaces
// at t.
func AsideName(path string, t time.Time) string {
	ext := filepath.Ext(path)
	return strings.TrimSuffix(path, ext) + "-replaced-" + t.Format("2006-01-02T150405") + ext
}

// Restore puts a copy of a backup in the place of the log book at path, and
// keeps that one under the name aside. The backup is checked whole first, by
// check too; then agree is told what would change, and says no with an error.
func Restore(path, from, aside string, check func(draft string) error, agree func(Difference) error) (Backup, error) {
	head, err := journal.Restore(path, from, aside, check, agree)
	if err != nil {
		return Backup{}, err
	}
	return Backup{Path: from, Lines: head.Seq, Seal: head.Hash.String(), head: head}, nil
}

// Drafts lists what programs left in a folder that were stopped while they made
// a log book or a backup.
func Drafts(dir string) ([]string, error) { return journal.Drafts(dir) }
