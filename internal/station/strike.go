package station

import (
	"encoding/json"
	"fmt"

	"bathside/internal/bath"
	"bathside/internal/journal"
)

// prepareStrike checks a line that crosses out another against that one, and
// makes its correction whole.
func (s *Station) prepareStrike(tx *journal.Tx, st *bath.State, e bath.Entry, k *bath.Strike) error {
	if k.Target == 0 || k.Target > st.Seq {
		return &bath.Refusal{ID: "no-line", Say: fmt.Sprintf("there is no line %d in the log book: it has %d", k.Target, st.Seq)}
	}
	fromTarget, err := decodeSince(tx, k.Target-1)
	if err != nil {
		return err
	}
	target, later := fromTarget[0], fromTarget[1:]
	if err := bath.CheckStrike(st, e, target, later); err != nil {
		return err
	}
	return s.restate(st, k, target)
}

// restate gives the correction of a line what the line itself was given: the
// limits of the catalog, and the marks of what is outside the rule. Without
// that, a correction would be a way to lose them.
func (s *Station) restate(st *bath.State, k *bath.Strike, target bath.Entry) error {
	fixed, ok, err := k.Corrected(target)
	if err != nil || !ok {
		return err
	}
	if err := s.prepareBody(st, fixed); err != nil {
		return err
	}
	k.Instead, err = json.Marshal(fixed.Body)
	return err
}
