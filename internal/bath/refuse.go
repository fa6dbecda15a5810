package bath

import "fmt"

// Refusal is why an entry is not taken: one sentence that says what was read,
// what is allowed and what to do. Nothing has been written.
type Refusal struct {
	ID  string // stable, for tests and JSON: "no-fill", "role", "future"
	Say string
}

// Error is the sentence.
func (r *Refusal) Error() string { return r.Say }

func refuse(id, format string, args ...any) error {
	return &Refusal{ID: id, Say: fmt.Sprintf(format, args...)}
}
