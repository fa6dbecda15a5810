package journal

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// Difference is what putting a copy in the place of a journal would change.
type Difference struct {
	Copy Head // of the copy, which was verified
	None bool // there is no file in the place

	Other  bool   // the file in the place is of another log: neither its ID nor its first entry is the copy's
	Lost   uint64 // entries of the file in the place that the copy has not
	Unread bool   // it is so damaged that nothing can be told of its entries
}

// Restore puts a copy of the journal in the file from in the place of the one
// at path, and keeps that one under the name aside. The copy is made, on the
// disk, and verified before anything is moved; check, if any, looks at it too.
// Then agree is told what would change, with everybody else kept out of path,
// and an error of it leaves everything as it was. There is a journal at path
// at every moment, if there was one before; the switch is one rename.
//
// It returns ErrExists if there is a file called aside. Whatever else stands at
// path may be replaced, damaged or no journal at all, but not one that a later
// version wrote: ErrNewer.
func Restore(path, from, aside string, check func(draft string) error, agree func(Difference) error) (Head, error) {
	head, err := restore(path, from, aside, check, agree)
	if err != nil {
		return Head{}, fmt.Errorf("restore journal %s from %s: %w", path, from, classify(err, forCreating))
	}
	return head, nil
}

func restore(path, from, aside string, check func(string) error, agree func(Difference) error) (Head, error) {
	source, err := Open(from)
	if err != nil {
		return Head{}, err
	}
	if real, err := filepath.EvalSymlinks(path); err == nil { // a link stays one
		path = real
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return Head{}, err
	}
	draft := draftOf(path)
	defer func() { _ = os.Remove(draft) }()
	head, err := source.copyTo(draft)
	if err != nil {
		return Head{}, err
	}
	if err := checkCopy(draft, head, check); err != nil {
		return Head{}, err
	}
	if _, err := os.Lstat(path); errors.Is(err, os.ErrNotExist) {
		if err := agree(Difference{Copy: head, None: true}); err != nil {
			return Head{}, err
		}
		if err := place(draft, path); err != nil {
			return Head{}, err
		}
		return head, syncDir(filepath.Dir(path))
	}
	return head, exchange(path, draft, aside, agree)
}

// exchange does the switch while nobody else may look at or write to path.
func exchange(path, draft, aside string, agree func(Difference) error) error {
	j, err := locate(path)
	if err != nil {
		return err
	}
	deadline := time.Now().Add(j.lockWait())
	unlock, err := j.lock(forWriting, deadline)
	if err != nil {
		return err
	}
	defer unlock()
	// Where this fails because of damage nobody writes either.
	h, err := openWithin(path, forWriting, deadline)
	if errors.Is(classify(err, forWriting), ErrInUse) {
		return err
	}
	letGo := func() {
		if h != nil {
			_ = h.close() // nothing was written by it
			h = nil
		}
	}
	defer letGo()

	d, err := compare(path, draft)
	if err != nil {
		return err
	}
	if err := agree(d); err != nil {
		return err
	}
	if err := permitLike(draft, path); err != nil {
		return err
	}
	if runtime.GOOS == "windows" { // where no open file can be moved
		letGo()
	}
	return swap(path, draft, aside)
}

// swap keeps the old file under a second name before it takes the first from
// it. Where the disk has no links it is moved away and back again if the rest
// fails.
func swap(path, draft, aside string) error {
	dir := filepath.Dir(path)
	if _, err := os.Lstat(aside); err == nil {
		return ErrExists
	}
	back := func() error { return os.Remove(aside) }
	if err := os.Link(path, aside); err != nil {
		if err := os.Rename(path, aside); err != nil {
			return err
		}
		back = func() error { return os.Rename(aside, path) }
	}
	if err := syncDir(dir); err != nil { // the old one is safe before it is replaced
		return errors.Join(err, back())
	}
	if err := os.Rename(draft, path); err != nil {
		return errors.Join(err, back())
	}
	return syncDir(dir)
}

// permitLike gives a copy the permissions, group and owner of another file, so
// that whoever could use that one can use the copy. It does what the disk and
// the account allow: without any of it the copy is for this account only.
func permitLike(draft, other string) error {
	info, err := os.Stat(other)
	if err != nil {
		return err
	}
	own(draft, info)
	_ = os.Chmod(draft, info.Mode().Perm())
	return nil
}
