package station

import (
	"bathside/internal/bath"
	"bathside/internal/journal"
)

// PINs says of each member on the roster by name whether they have a PIN.
func (s *Station) PINs() (map[string]bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := map[string]bool{}
	err := s.j.View(func(tx *journal.Tx) error {
		if err := s.refresh(tx); err != nil {
			return err
		}
		return pinsOf(tx, s.known.state.Members, out)
	})
	return out, err
}

func pinsOf(tx *journal.Tx, members []bath.Member, out map[string]bool) error {
	for _, m := range members {
		has, err := hasPIN(tx, m)
		if err != nil {
			return err
		}
		out[m.Name] = has
	}
	return nil
}
