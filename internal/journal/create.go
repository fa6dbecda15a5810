package journal

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Create makes an empty journal at path, with the directories above it, for
// this account only (0700, 0600). It returns ErrExists if there is a file of
// that name, which is left alone; of two callers at once only one succeeds.
func Create(path string) (*Journal, error) {
	return CreateWith(path, func(*Tx) error { return nil })
}

// CreateWith makes a journal as Create does, with what fill stores in it. The
// file comes to be with all of that or not at all: a process that is killed
// leaves no journal that is empty.
func CreateWith(path string, fill func(*Tx) error) (*Journal, error) {
	if err := publish(path, fill); err != nil {
		return nil, fmt.Errorf("create journal %s: %w", path, classify(err, forCreating))
	}
	return Open(path)
}

// publish makes a journal under a name that nobody looks for, lets fill write
// to it, and gives it its real name once it is whole and on the disk. A crash
// before that leaves at most a hidden file with a random name.
func publish(path string, fill func(*Tx) error) error {
	if _, err := os.Lstat(path); err == nil {
		return ErrExists
	}
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%w: %w", ErrNoPlace, err)
	} else if err != nil {
		return err
	}
	draft := draftOf(path)
	defer func() { _ = os.Remove(draft) }()
	if err := write(draft, fill); err != nil {
		return err
	}
	// A link, unlike a rename, fails if the name is taken.
	if err := os.Link(draft, path); err != nil {
		return err
	}
	return syncDir(dir)
}

func write(draft string, fill func(*Tx) error) (err error) {
	h, err := open(draft, forCreating)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, h.close()) }()
	tx := &Tx{h: h, path: draft}
	if err := tx.lay(); err != nil {
		return err
	}
	if err := fill(tx); err != nil {
		return err
	}
	if err := h.commit(); err != nil {
		return err
	}
	return h.db.Sync()
}

// lay makes the buckets of an empty journal.
func (t *Tx) lay() error {
	for _, name := range allBuckets {
		if _, err := t.h.tx.CreateBucket(name); err != nil {
			return err
		}
	}
	return errors.Join(
		t.h.put(bucketMeta, keyFormat, fmt.Appendf(nil, "%s%d", formatName, formatVersion)),
		t.h.put(bucketMeta, keyID, []byte(rand.Text())),
		t.h.put(bucketMeta, keyHead, Head{}.encode()),
	)
}

// syncDir makes the new name last. Windows cannot sync a directory, and keeps
// names without it.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
