package station

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"
)

// Practise makes a copy of the station to practise on, in a folder of its own
// for things that are thrown away. It has the same lines, a clock of its own
// and no PINs. Nothing that is recorded in it comes back; done closes it and
// takes it away.
func (s *Station) Practise(now func() time.Time) (copied *Station, done func() error, err error) {
	dir, err := os.MkdirTemp("", "bathside-practice-")
	if err != nil {
		return nil, nil, err
	}
	path := filepath.Join(dir, "practice.db")
	if err := s.copyTo(path); err != nil {
		return nil, nil, errors.Join(err, os.RemoveAll(dir))
	}
	copied, err = Open(path, Options{Now: now, Catalog: s.catalog})
	if err != nil {
		return nil, nil, errors.Join(err, os.RemoveAll(dir))
	}
	return copied, func() error { return errors.Join(copied.Close(), os.RemoveAll(dir)) }, nil
}

// copyTo holds no transaction for long: others go on recording.
func (s *Station) copyTo(path string) error {
	r, w := io.Pipe()
	go func() { w.CloseWithError(s.Export(w)) }()
	_, err := Import(path, r)
	_ = r.CloseWithError(err) // lets the writer go where reading ended early
	return err
}
