package station

import "bathside/internal/bath"

// Result is what came of a submitted record.
type Result struct {
	Entries []bath.Entry
	Err     error
}

type job struct {
	drafts []Draft
	ack    chan<- Result
}

// Submit queues drafts for recording and returns at once; the channel gets the
// outcome. They are written in the order they were submitted, with the time
// of the submission. A face submits where it may not wait, and Close sees to
// it that nothing submitted is lost.
func (s *Station) Submit(drafts ...Draft) <-chan Result {
	ack := make(chan Result, 1)
	s.jobs <- job{s.stamp(drafts), ack}
	return ack
}

func (s *Station) work() {
	defer close(s.done)
	for j := range s.jobs {
		entries, err := s.record(j.drafts)
		j.ack <- Result{entries, err}
	}
}

// Close waits for everything submitted to be written. Nothing may be
// submitted afterwards; closing again does nothing.
func (s *Station) Close() error {
	s.closing.Do(func() { close(s.jobs) })
	<-s.done
	return nil
}
