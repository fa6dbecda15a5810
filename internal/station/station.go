// Package station is one open station: its journal, the state folded from it,
// and the catalog it washes by. It is the one door for every face: whatever a
// console or a command wants recorded goes through Record, which checks it
// against the rules of package bath inside the same transaction that writes it.
//
// It draws nothing, and decides nothing that package bath does not say.
package station

import (
	"context"
	"errors"
	"fmt"
	"os"
	"sync"
	"time"

	"github.com/oklog/ulid/v2"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/journal"
)

// Errors that callers tell apart. What they mean stands with the journal.
var (
	ErrInUse      = journal.ErrInUse
	ErrExists     = journal.ErrExists
	ErrNotExist   = journal.ErrNotExist
	ErrNoPlace    = journal.ErrNoPlace
	ErrGone       = journal.ErrGone
	ErrNotOurs    = journal.ErrNotOurs
	ErrNewer      = journal.ErrNewer
	ErrDamaged    = journal.ErrDamaged
	ErrReadOnly   = journal.ErrReadOnly
	ErrUnreadable = journal.ErrUnreadable
	ErrFull       = journal.ErrFull
	ErrDisk       = journal.ErrDisk
	ErrUnsure     = journal.ErrUnsure
)

// ErrReplaced means that another log book, or an older copy, lies where the
// one was that a line was meant for. The line was not written; the station
// goes by the new one from then on.
var ErrReplaced = errors.New("log book was replaced")

// Options are what a station needs from outside. The zero value works.
type Options struct {
	Now     func() time.Time // time.Now if nil
	Catalog *catalog.Catalog // nil: washes of any item are taken, without limits

	// AskPIN says whether an entry asks for a PIN, on top of the state before
	// the record that it is part of; nil: none does. The entry is as its draft
	// has it, but for By, which is the member's full name if they are known.
	// A member who has no PIN is not asked for one.
	AskPIN func(*bath.State, bath.Entry) Ask
	// PINLine is the line that an event goes into the log book as, in the same
	// transaction and by the event's By; nil, or a nil body: none.
	PINLine func(PINEvent) bath.Body
}

// Station is a station's log book and what it amounts to. Its methods may be
// called from several goroutines.
type Station struct {
	j       *journal.Journal
	catalog *catalog.Catalog
	now     func() time.Time
	ask     func(*bath.State, bath.Entry) Ask
	pinLine func(PINEvent) bath.Body
	zone    *time.Location // of a station that is being made, until its first entries say so

	mu    sync.Mutex // holds folded
	known folded

	jobs    chan job
	done    chan struct{}
	closing sync.Once
}

// Open opens the station whose log book is the file at path. Nothing stays
// open between calls: several processes share the file.
func Open(path string, o Options) (*Station, error) {
	j, err := journal.Open(path)
	if err != nil {
		return nil, err
	}
	return open(j, o), nil
}

// Create makes a new station file at path with its first entries: it is there
// with all of them or not at all. They are checked before the file is made;
// ErrExists where there is one already.
func Create(path string, o Options, first ...Draft) (*Station, error) {
	if _, err := os.Lstat(path); err == nil {
		return nil, fmt.Errorf("%s: %w", path, ErrExists)
	}
	s := open(nil, o)
	s.zone = zoneIn(first)
	if err := s.create(path, s.stamp(first)); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

func (s *Station) create(path string, first []Draft) error {
	if _, err := s.rehearse(first); err != nil {
		return err
	}
	f := folded{state: bath.NewState()}
	j, err := journal.CreateWith(path, func(tx *journal.Tx) error {
		_, err := s.write(tx, &f, first)
		return err
	})
	if err != nil {
		return err
	}
	s.j, s.known = j, f
	return nil
}

// zoneIn is the time zone that first entries give the station, nil for none.
func zoneIn(first []Draft) *time.Location {
	for _, d := range first {
		if set, ok := d.Body.(*bath.Setting); ok && set.Zone != "" {
			if zone, err := time.LoadLocation(set.Zone); err == nil {
				return zone
			}
		}
	}
	return nil
}

func open(j *journal.Journal, o Options) *Station {
	s := &Station{
		j: j, catalog: o.Catalog, now: o.Now, ask: o.AskPIN, pinLine: o.PINLine,
		jobs: make(chan job, 64), done: make(chan struct{}),
	}
	if s.now == nil {
		s.now = time.Now
	}
	go s.work()
	return s
}

// Path is the file of the log book.
func (s *Station) Path() string { return s.j.Path() }

// Catalog is what the station washes by; nil where none was given.
func (s *Station) Catalog() *catalog.Catalog { return s.catalog }

// Now is the station's clock.
func (s *Station) Now() time.Time { return s.now() }

// State is everything the log book says at this moment.
func (s *Station) State() (*bath.State, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	err := s.j.View(s.refresh)
	return s.known.state, err
}

// Watch ticks when any process has changed the log book, until ctx ends.
func (s *Station) Watch(ctx context.Context) <-chan struct{} {
	return s.j.Watch(ctx, watchEvery)
}

// watchEvery keeps what one face records within a second of every other.
const watchEvery = 300 * time.Millisecond

// Draft is an entry that has not been written yet. The station owns its Body
// from then on.
type Draft struct {
	ID   string    // makes recording it twice harmless; minted if empty
	At   time.Time // when it happened; now if zero
	By   string    // a name from the roster, initials, or part of a name
	Bath string    // the first bath if empty
	Body bath.Body

	PIN     PIN     // of who it is by, where they are asked for it; else not looked at
	Session Session // stands for the PIN where AskOnce is enough
}

// Record writes drafts in their order, all or none, and gives the entries. The
// error is a *bath.Refusal where a rule says no, and a *PINError where a PIN
// is asked for and was not given or not taken: that try is counted, and
// nothing else is written. When it returns without one the entries are on disk.
func (s *Station) Record(drafts ...Draft) ([]bath.Entry, error) {
	return s.record(s.stamp(drafts))
}

// stamp gives drafts their time and id: those of the moment they were made,
// not of the moment the disk answered.
func (s *Station) stamp(drafts []Draft) []Draft {
	now := s.now().Truncate(time.Second)
	stamped := make([]Draft, len(drafts))
	for i, d := range drafts {
		if d.At.IsZero() {
			d.At = now
		}
		if d.ID == "" {
			d.ID = ulid.MustNew(ulid.Timestamp(s.now()), ulid.DefaultEntropy()).String()
		}
		stamped[i] = d
	}
	return stamped
}

func (s *Station) record(drafts []Draft) (out []bath.Entry, err error) {
	err = s.update(func(tx *journal.Tx, f *folded) (err error) {
		if err := s.askPINs(tx, f, drafts); err != nil {
			return err
		}
		out, err = s.write(tx, f, drafts)
		return err
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// write appends drafts to tx and folds them into f.
func (s *Station) write(tx *journal.Tx, f *folded, drafts []Draft) ([]bath.Entry, error) {
	var out []bath.Entry
	for _, d := range drafts {
		if old, ok, err := tx.Find(d.ID); err != nil {
			return nil, err
		} else if ok { // recorded before: it was committed and not acknowledged
			e, err := decode(old)
			if err != nil {
				return nil, err
			}
			out = append(out, e)
			continue
		}
		if err := bath.ByItself(d.Body); err != nil {
			return nil, err
		}
		e, err := s.append(tx, f, d)
		if err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, s.checkpoint(tx, f)
}

func (s *Station) append(tx *journal.Tx, f *folded, d Draft) (bath.Entry, error) {
	e, err := s.prepare(f.state, d)
	if err != nil {
		return e, err
	}
	if err := bath.Check(f.state, e, s.now()); err != nil {
		return e, err
	}
	if k, ok := e.Body.(*bath.Strike); ok {
		if err := s.prepareStrike(tx, f.state, e, k); err != nil {
			return e, err
		}
	}
	stored, err := encode(e)
	if err != nil {
		return e, err
	}
	if stored, err = tx.Append(stored); err != nil {
		return e, err
	}
	e.Seq = stored.Seq
	next, err := f.state.Apply(e)
	if errors.Is(err, bath.ErrRefold) {
		next, err = foldAll(tx)
	}
	if err != nil {
		return e, err
	}
	f.state, f.head = next, tx.Head()
	return e, dropPIN(tx, e)
}

// rehearse checks stamped first entries without a file.
func (s *Station) rehearse(drafts []Draft) (*bath.State, error) {
	st := bath.NewState()
	for i, d := range drafts {
		if _, ok := d.Body.(*bath.Strike); ok {
			return nil, &bath.Refusal{ID: "no-line", Say: "a new log book has no line to cross out yet: leave that out"}
		}
		if err := bath.ByItself(d.Body); err != nil {
			return nil, err
		}
		e, err := s.prepare(st, d)
		if err != nil {
			return nil, err
		}
		if err := bath.Check(st, e, s.now()); err != nil {
			return nil, err
		}
		e.Seq = uint64(i + 1)
		if st, err = st.Apply(e); err != nil {
			return nil, err
		}
	}
	return st, nil
}
