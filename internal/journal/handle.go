package journal

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"time"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// mode says what a file is opened for.
type mode int

const (
	forReading mode = iota
	forWriting
	forCreating // a file that nobody else knows yet
	forChecking // reading, with the list of free pages
)

func (m mode) String() string {
	return [...]string{"read", "write", "create", "check"}[m]
}

// handle is the bbolt file, opened for one transaction. All calls to bbolt go
// through it, because bbolt panics on damaged pages: try turns that into
// ErrDamaged.
type handle struct {
	db     *bolt.DB
	tx     *bolt.Tx
	file   *os.File
	broken bool  // bbolt panicked and may hold its own locks for ever
	failed error // a write that went wrong; nothing may be committed after it
}

// openWithin opens the file and begins a transaction, trying until the
// deadline while others hold bbolt's lock. bbolt's own wait polls every 50 ms
// and starves one of many writers; a short wait of random length does not.
func openWithin(path string, m mode, deadline time.Time) (*handle, error) {
	for wait := time.Millisecond; ; wait = min(2*wait, 8*time.Millisecond) {
		h, err := open(path, m)
		if !errors.Is(err, berrors.ErrTimeout) || !time.Now().Before(deadline) {
			return h, err
		}
		time.Sleep(wait/2 + rand.N(wait))
	}
}

// open opens the file once, and returns bbolt's ErrTimeout if somebody else
// holds it.
//
// The list of free pages is stored at each commit (NoFreelistSync stays
// false): this log frees few pages, so the list is short, while without it
// every open for writing would walk the whole file. Readers do not load it.
func open(path string, m mode) (*handle, error) {
	h := new(handle)
	options := &bolt.Options{
		Timeout:         time.Nanosecond, // one try
		ReadOnly:        m == forReading || m == forChecking,
		PreLoadFreelist: m == forChecking,
		NoSync:          m == forCreating, // publish syncs once, at the end
		NoStatistics:    true,
		OpenFile: func(name string, _ int, _ os.FileMode) (f *os.File, err error) {
			h.file, err = openFile(name, m)
			return h.file, err
		},
	}
	err := h.try(func() (err error) {
		h.db, err = bolt.Open(path, 0o600, options)
		return err
	})
	if err == nil {
		err = h.begin()
	}
	if err != nil {
		return nil, errors.Join(err, h.close())
	}
	return h, nil
}

// openFile stands between bbolt and the disk: bbolt would make a missing file,
// fill an empty one and map one that was cut short.
func openFile(path string, m mode) (*os.File, error) {
	if m == forCreating {
		return os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	}
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, ErrNotOurs
	}
	flag := os.O_RDONLY
	if m == forWriting {
		flag = os.O_RDWR
	}
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err != nil { // of the file that was opened, should the name be another's by now
		return nil, errors.Join(err, f.Close())
	}
	headers, err := readHeaders(f, info.Size())
	if err == nil && m == forWriting && len(headers.findings) > 0 {
		err = fmt.Errorf("%w: %s", ErrDamaged, headers.findings[0])
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// isAt reports whether the file that was written to still bears that name: a
// line in a file that was put aside meanwhile is in no log book that anybody
// will open.
func (h *handle) isAt(path string) bool {
	held, err := h.file.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(path)
	return err == nil && os.SameFile(held, named)
}

// try runs one call to bbolt.
func (h *handle) try(call func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			h.broken = true
			h.failed = fmt.Errorf("%w: %v", ErrDamaged, r)
			err = h.failed
		}
	}()
	return call()
}

func (h *handle) begin() error {
	return h.try(func() (err error) {
		h.tx, err = h.db.Begin(!h.db.IsReadOnly())
		return err
	})
}

// commit returns ErrUnsure with the cause where all was written and only the
// last sync failed.
func (h *handle) commit() error {
	if h.failed != nil {
		return h.failed
	}
	txid := uint64(h.tx.ID())
	err := h.try(h.tx.Commit)
	if err == nil {
		return nil
	}
	err = growthError(err)
	if h.newest() == txid {
		err = fmt.Errorf("%w: %w", ErrUnsure, err)
	}
	return err
}

// newest is the transaction that a reader would find, 0 where none can be.
func (h *handle) newest() uint64 {
	info, err := h.file.Stat()
	if err != nil {
		return 0
	}
	hs, err := readHeaders(h.file, info.Size())
	if err != nil {
		return 0
	}
	return hs.newest.txid
}

// close rolls back what was not committed and lets go of the file. After a
// panic bbolt's locks may be stuck, so then only the file is closed, which
// gives the lock back to the other processes.
func (h *handle) close() error {
	err := h.try(func() error {
		if h.broken || h.db == nil {
			return nil
		}
		if h.tx != nil {
			_ = h.tx.Rollback() // says ErrTxClosed after a commit
		}
		return h.db.Close()
	})
	if h.file != nil && h.broken {
		_ = h.file.Close()
	}
	h.tx = nil
	return err
}

// get returns a copy of a value, nil if there is none. It is a copy because
// bbolt's own is only good until the transaction ends, and because a damaged
// page may promise bytes that are not there, which must fault inside try.
func (h *handle) get(bucket, key []byte) (value []byte, err error) {
	if h.tx == nil {
		return nil, berrors.ErrTxClosed
	}
	err = h.try(func() error {
		if b := h.tx.Bucket(bucket); b != nil {
			value = bytes.Clone(b.Get(key))
		}
		return nil
	})
	return value, err
}

// put stores a value, which the caller must not change afterwards.
func (h *handle) put(bucket, key, value []byte) error {
	if h.tx == nil {
		return berrors.ErrTxClosed
	}
	err := h.try(func() error {
		b := h.tx.Bucket(bucket)
		if b == nil {
			return fmt.Errorf("%w: bucket %s is missing", ErrDamaged, bucket)
		}
		b.FillPercent = 1 // keys come in rising order: pages stay full
		return b.Put(key, value)
	})
	if err != nil {
		h.failed = err
	}
	return err
}
