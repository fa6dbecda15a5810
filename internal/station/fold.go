package station

import (
	"encoding/json"
	"errors"
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/journal"
)

// folded is a state and the place in the chain that it was folded up to.
type folded struct {
	state      *bath.State
	head       journal.Head
	checkpoint uint64 // sequence of the checkpoint on file
}

// checkpointEvery is how many entries may pass before the folded state is
// stored again: a cold start reads at most this many.
const checkpointEvery = 200

// refresh brings known up to the head of the journal: from where it was if
// that is still part of the chain, else from the checkpoint, else from the
// first entry.
func (s *Station) refresh(tx *journal.Tx) error {
	if !extends(tx, s.known) {
		f, err := load(tx)
		if err != nil {
			return err
		}
		s.known = f
	}
	tail, err := decodeSince(tx, s.known.head.Seq)
	if err != nil || len(tail) == 0 {
		return err
	}
	st, err := s.known.state.Apply(tail...)
	if errors.Is(err, bath.ErrRefold) {
		st, err = foldAll(tx)
	}
	if err != nil {
		return err
	}
	s.known.state, s.known.head = st, tx.Head()
	return nil
}

// extends reports whether the journal goes on from f.
func extends(tx *journal.Tx, f folded) bool {
	if f.state == nil {
		return false
	}
	head := tx.Head()
	if head.Seq <= f.head.Seq {
		return head == f.head
	}
	next, err := tx.Get(f.head.Seq + 1)
	return err == nil && next.Prev == f.head.Hash
}

// load starts from the checkpoint where it fits this program and this chain.
func load(tx *journal.Tx) (folded, error) {
	if cp, ok := tx.Checkpoint(); ok {
		st, err := bath.Unpack(cp.Data)
		f := folded{st, journal.Head{Seq: cp.Seq, Hash: cp.Hash}, cp.Seq}
		if err == nil && st.Fold == bath.FoldVersion && st.Seq == cp.Seq && extends(tx, f) {
			return f, nil
		}
	}
	st, err := foldAll(tx)
	return folded{state: st, head: tx.Head()}, err
}

func foldAll(tx *journal.Tx) (*bath.State, error) {
	all, err := decodeSince(tx, 0)
	if err != nil {
		return nil, err
	}
	return bath.Fold(all)
}

// checkpoint stores the state when enough has been written since the last.
func (s *Station) checkpoint(tx *journal.Tx, f *folded) error {
	if f.head.Seq < f.checkpoint+checkpointEvery {
		return nil
	}
	data, err := f.state.Pack()
	if err != nil {
		return err
	}
	f.checkpoint = f.head.Seq
	return tx.SetCheckpoint(data)
}

func decodeSince(tx *journal.Tx, seq uint64) ([]bath.Entry, error) {
	var out []bath.Entry
	for stored, err := range tx.Since(seq) {
		if err != nil {
			return nil, err
		}
		e, err := decode(stored)
		if err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

func decode(j journal.Entry) (bath.Entry, error) {
	body, err := bath.Decode(bath.Kind(j.Kind), j.Body)
	if err != nil {
		return bath.Entry{}, fmt.Errorf("line %d: %w", j.Seq, err)
	}
	e := bath.Entry{Seq: j.Seq, ID: j.ID, At: j.At, Logged: j.Logged, By: j.By, Bath: j.Bath, Body: body}
	e.Scrub()
	return e, nil
}

func encode(e bath.Entry) (journal.Entry, error) {
	body, err := json.Marshal(e.Body)
	if err != nil {
		return journal.Entry{}, err
	}
	return journal.Entry{ID: e.ID, At: e.At, Logged: e.Logged, By: e.By, Bath: e.Bath, Kind: string(e.Kind()), Body: body}, nil
}
