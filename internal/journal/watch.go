package journal

import (
	"context"
	"os"
	"time"
)

// Watch looks at the file at the given interval and sends when any process
// has committed to it, or it was replaced or removed. Several changes may
// become one signal; a change after Watch returns is never missed. The
// channel closes when ctx is done.
func (j *Journal) Watch(ctx context.Context, every time.Duration) <-chan struct{} {
	changed := make(chan struct{}, 1)
	last := glance(j.path)
	go func() {
		defer close(changed)
		tick := time.NewTicker(every)
		defer tick.Stop()
		for {
			select {
			case <-ctx.Done():
				return
			case <-tick.C:
			}
			now := glance(j.path)
			if now == last {
				continue
			}
			last = now
			select {
			case changed <- struct{}{}:
			default: // the reader has not taken the last one yet
			}
		}
	}()
	return changed
}

// glance returns something that differs after each commit: both header pages.
// The file's time would not do, because two commits within one tick of the
// kernel's clock leave it the same.
func glance(path string) (seen [2][headerSize]byte) {
	f, err := os.Open(path)
	if err != nil {
		return seen
	}
	defer f.Close()
	size := int64(os.Getpagesize())
	if h, err := readHeader(f, 0, 0); err == nil {
		size = int64(h.pageSize)
	}
	for i := range seen {
		_, _ = f.ReadAt(seen[i][:], int64(i)*size)
	}
	return seen
}
