package bath

import (
	"bytes"
	"encoding/json"
	"slices"
)

// Pack writes s for a checkpoint: the state without its entries on the first
// line, then an entry a line. That is read in one pass where entries inside
// the state would be gone over three times, and every start of the program
// reads a checkpoint.
func (s *State) Pack() ([]byte, error) {
	bare := *s
	bare.Checks = nil
	bare.Baths = make([]*Bath, len(s.Baths))
	for i, b := range s.Baths {
		c := *b
		c.Entries = nil
		bare.Baths[i] = &c
	}
	out, err := json.Marshal(&bare)
	if err != nil {
		return nil, err
	}
	held := [][]Entry{s.Checks}
	for _, b := range s.Baths {
		held = append(held, b.Entries)
	}
	for _, e := range slices.Concat(held...) {
		line, err := e.MarshalJSON()
		if err != nil {
			return nil, err
		}
		out = append(append(out, '\n'), line...)
	}
	return out, nil
}

// Unpack reads what Pack wrote.
func Unpack(data []byte) (*State, error) {
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	s := NewState()
	if err := json.Unmarshal(first, s); err != nil {
		return nil, err
	}
	for line := range bytes.SplitSeq(rest, []byte("\n")) {
		if len(line) == 0 {
			continue
		}
		var e Entry
		if err := e.UnmarshalJSON(line); err != nil {
			return nil, err
		}
		if _, ok := e.Body.(*Calibration); ok { // a meter belongs to the station
			s.Checks = append(s.Checks, e)
			continue
		}
		b, err := s.Bath(e.Bath)
		if err != nil {
			return nil, err
		}
		b.Entries = append(b.Entries, e)
	}
	return s, nil
}
