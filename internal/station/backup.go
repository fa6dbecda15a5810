package station

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"bathside/internal/journal"
)

// Backup is a copy of a log book in a file of its own.
type Backup struct {
	Path  string `json:"file"`
	Lines uint64 `json:"entries"`
	Seal  string `json:"seal"`

	head journal.Head
}

// backupTime is how the name of a backup has its time, in the station's zone.
const backupTime = "2006-01-02T1504"

// BackupName is the name of a backup of the log book at path, made at t: that
// of the log book with the time. The nth of the same minute, counted from 1,
// has its number.
func BackupName(path string, t time.Time, nth int) string {
	ext := filepath.Ext(path)
	name := strings.TrimSuffix(filepath.Base(path), ext) + "-" + t.Format(backupTime)
	if nth > 1 {
		name += fmt.Sprintf("-%d", nth)
	}
	return name + ext
}

// isBackupName reports whether BackupName may have made name.
func isBackupName(path, name string) bool {
	ext := filepath.Ext(path)
	made, ok := strings.CutPrefix(name, strings.TrimSuffix(filepath.Base(path), ext)+"-")
	made, cut := strings.CutSuffix(made, ext)
	if !ok || !cut || len(made) < len(backupTime) {
		return false
	}
	t, err := time.Parse(backupTime, made[:len(backupTime)])
	if err != nil {
		return false
	}
	nth := 1
	if number := made[len(backupTime):]; number != "" {
		if nth, err = strconv.Atoi(strings.TrimPrefix(number, "-")); err != nil {
			return false
		}
	}
	return name == BackupName(path, t, nth)
}

// BackUp copies the log book as it is at this moment to a new file at path, on
// the disk and verified; check, if any, looks at the copy before it gets its
// name. ErrExists where there is a file, ErrDamaged for a damaged log book.
func (s *Station) BackUp(path string, check func(draft string) error) (Backup, error) {
	head, err := s.j.Backup(path, check)
	if err != nil {
		return Backup{}, err
	}
	return Backup{Path: path, Lines: head.Seq, Seal: head.Hash.String(), head: head}, nil
}

// Backups lists the backups of this log book in a folder that are named as
// BackupName does, oldest name first. Files of other stations are not among
// them, nor any that cannot be read.
func (s *Station) Backups(dir string) ([]Backup, error) {
	found, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var backups []Backup
	for _, f := range found {
		if !isBackupName(s.Path(), f.Name()) || !f.Type().IsRegular() {
			continue
		}
		path := filepath.Join(dir, f.Name())
		if b, ok := s.ownBackup(path); ok {
			backups = append(backups, b)
		}
	}
	slices.SortFunc(backups, byName)
	return backups, nil
}

// byName has the second of a minute after the first, and the tenth after the
// second.
func byName(a, b Backup) int {
	minute := func(b Backup) string {
		name := filepath.Base(b.Path)
		return name[:min(len(name), strings.LastIndex(name, "T")+len("T1504"))]
	}
	return cmp.Or(
		strings.Compare(minute(a), minute(b)),
		cmp.Compare(len(a.Path), len(b.Path)),
		strings.Compare(a.Path, b.Path),
	)
}

func (s *Station) ownBackup(path string) (Backup, bool) {
	j, err := journal.Open(path)
	if err != nil || j.ID() != s.j.ID() {
		return Backup{}, false
	}
	b := Backup{Path: path}
	err = j.View(func(tx *journal.Tx) error {
		b.head = tx.Head()
		return nil
	})
	b.Lines, b.Seal = b.head.Seq, b.head.Hash.String()
	return b, err == nil
}

// Thin removes the oldest backups of this log book from a folder until keep
// are left, and gives what it removed. It never removes the newest, one made
// just now, nor one with lines that the log book has not any more.
func (s *Station) Thin(dir string, keep int, made Backup) (removed []string, err error) {
	backups, err := s.Backups(dir)
	if err != nil || len(backups) == 0 {
		return nil, err
	}
	left := len(backups)
	for _, b := range backups[:len(backups)-1] {
		if left <= max(1, keep) {
			break
		}
		if filepath.Base(b.Path) == filepath.Base(made.Path) {
			continue
		}
		if held, err := s.j.Holds(b.head); err != nil {
			return removed, err
		} else if !held {
			continue
		}
		if err := os.Remove(b.Path); err != nil && !errors.Is(err, os.ErrNotExist) {
			return removed, err
		}
		removed = append(removed, b.Path)
		left--
	}
	return removed, nil
}
