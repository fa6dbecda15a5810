package journal

import (
	"context"
	"sync"
	"time"

	"golang.org/x/sync/semaphore"
)

// gates holds one gate for each file, because two handles of one process
// exclude each other just as two processes do, and goroutines should wait for
// each other without a thread each.
var gates sync.Map // name with links resolved -> *semaphore.Weighted

// A reader takes one place at the gate, a writer all of them. The gate serves
// in the order of asking, so a writer is not starved by readers.
const places = 1 << 20

func gateFor(path string) *semaphore.Weighted {
	gate, _ := gates.LoadOrStore(path, semaphore.NewWeighted(places))
	return gate.(*semaphore.Weighted)
}

// lock waits its turn, first within this process, then among processes. It
// returns ErrInUse at the deadline.
func (j *Journal) lock(m mode, deadline time.Time) (unlock func(), err error) {
	n := int64(1)
	if m == forWriting {
		n = places
	}
	ctx, cancel := context.WithDeadline(context.Background(), deadline)
	defer cancel()
	if err := j.gate.Acquire(ctx, n); err != nil {
		return nil, ErrInUse
	}
	free, err := j.lockSidecar(m, deadline)
	if err != nil {
		j.gate.Release(n)
		return nil, err
	}
	return func() {
		free()
		j.gate.Release(n)
	}, nil
}
