package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Backup copies the journal, byte for byte and as one transaction sees it, to a
// new file at path with the journal's permissions, and returns its head. Others
// may go on using the journal. The copy is on the disk and verified before it
// gets its name, and check, if any, has looked at it too: an error of it means
// no backup. Directories are not made.
//
// It returns ErrExists rather than replace a file, and ErrDamaged for a journal
// in which Verify finds anything: a bad copy must not pass for a backup.
func (j *Journal) Backup(path string, check func(draft string) error) (Head, error) {
	head, err := j.backup(path, check)
	if err != nil {
		return Head{}, fmt.Errorf("back up journal %s to %s: %w", j.path, path, classify(err, forCreating))
	}
	return head, nil
}

func (j *Journal) backup(path string, check func(draft string) error) (Head, error) {
	if _, err := os.Lstat(path); err == nil {
		return Head{}, ErrExists
	}
	draft := draftOf(path)
	defer func() { _ = os.Remove(draft) }()
	head, err := j.copyTo(draft)
	if err != nil {
		return Head{}, err
	}
	if err := checkCopy(draft, head, check); err != nil {
		return Head{}, err
	}
	if err := permitLike(draft, j.path); err != nil {
		return Head{}, err
	}
	if err := place(draft, path); err != nil {
		return Head{}, err
	}
	return head, syncDir(filepath.Dir(path))
}

// copyTo returns the head of the transaction that the copy was made in.
func (j *Journal) copyTo(draft string) (head Head, err error) {
	f, err := os.OpenFile(draft, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return Head{}, err
	}
	err = j.View(func(tx *Tx) error {
		head = tx.Head()
		return tx.h.copyPages(f)
	})
	return head, errors.Join(err, f.Sync(), f.Close())
}

// copyPages writes all pages in use with both header pages. Nobody commits
// meanwhile: a reader holds bbolt's lock as well.
func (h *handle) copyPages(w io.Writer) error {
	info, err := h.file.Stat()
	if err != nil {
		return err
	}
	headers, err := readHeaders(h.file, info.Size())
	if err != nil {
		return err
	}
	size := headers.newest.highWater * headers.newest.pageSize
	n, err := io.Copy(w, io.NewSectionReader(h.file, 0, int64(size)))
	if err == nil && uint64(n) != size {
		err = io.ErrUnexpectedEOF
	}
	return err
}

// checkCopy verifies a copy and compares it with the head it must have.
func checkCopy(draft string, head Head, check func(string) error) error {
	report, err := Verify(draft)
	if err != nil {
		return err
	}
	if report.Head != head || uint64(report.Entries) != head.Seq {
		return fmt.Errorf("%w: the copy ends with entry %d, the journal with entry %d", ErrDamaged, report.Head.Seq, head.Seq)
	}
	if check != nil {
		return check(draft)
	}
	return nil
}

// place gives a finished draft its name, and fails if that is taken. Where the
// disk has no links, as sticks have none, the name is taken first by an empty
// file, which the draft then replaces.
func place(draft, path string) error {
	err := os.Link(draft, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(f.Close(), os.Rename(draft, path)); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// Holds reports whether the entry that head names is part of the journal. The
// zero Head is part of any.
func (j *Journal) Holds(head Head) (held bool, err error) {
	if head == (Head{}) {
		return true, nil
	}
	err = j.View(func(tx *Tx) error {
		raw, err := tx.Raw(head.Seq)
		if errors.Is(err, ErrNoEntry) {
			return nil
		}
		held = err == nil && sum(raw) == head.Hash
		return err
	})
	return held, err
}
