package journal

import (
	"errors"
	"fmt"
	"time"
)

// CheckPages runs bbolt's own check, which also compares the list of free
// pages with the trees: a page that is in both would be overwritten. It
// returns ErrDamaged with the first things found.
//
// On a damaged file bbolt may panic in a goroutine of its own and take the
// process with it. Run Verify first, and this in a child process.
func CheckPages(path string) error {
	if err := checkPages(path); err != nil {
		return fmt.Errorf("check pages of journal %s: %w", path, classify(err, forReading))
	}
	return nil
}

func checkPages(path string) error {
	j, err := locate(path)
	if err != nil {
		return err
	}
	deadline := time.Now().Add(j.lockWait())
	unlock, err := j.lock(forChecking, deadline)
	if err != nil {
		return err
	}
	defer unlock()
	h, err := openWithin(path, forChecking, deadline)
	if err != nil {
		return err
	}
	return errors.Join(h.check(), h.close())
}

// check must read the channel to its end, or bbolt's goroutine never ends.
func (h *handle) check() error {
	const most = 10
	var found []error
	for err := range h.tx.Check() {
		if len(found) < most {
			found = append(found, err)
		}
	}
	if len(found) == 0 {
		return nil
	}
	return fmt.Errorf("%w: %w", ErrDamaged, errors.Join(found...))
}
