package station

import (
	"errors"
	"fmt"

	"bathside/internal/bath"
)

// Explain is err as a person reads it: one sentence with the next step. What
// it says of files, it says of the file at path.
func Explain(err error, path string) string {
	var refusal *bath.Refusal
	switch {
	case err == nil:
		return ""
	case errors.As(err, &refusal):
		return refusal.Say
	case errors.Is(err, ErrInUse):
		return fmt.Sprintf("the log book %s is being used by another program: wait a moment and do it again", path)
	case errors.Is(err, ErrNotExist):
		return fmt.Sprintf("there is no station at %s: run bathside setup, or name its file with --data", path)
	case errors.Is(err, ErrExists):
		return fmt.Sprintf("there is a station at %s already: nothing was changed; name another file with --data", path)
	case errors.Is(err, ErrNotOurs):
		return fmt.Sprintf("%s is not a Bathside log book: nothing was changed; name another file with --data", path)
	case errors.Is(err, ErrNewer):
		return fmt.Sprintf("%s was written by a newer Bathside: nothing was changed; install that version here", path)
	case errors.Is(err, ErrDamaged):
		return fmt.Sprintf("%s is damaged: nothing was changed; keep the file, run bathside verify, and restore a backup", path)
	case errors.Is(err, ErrReadOnly):
		return fmt.Sprintf("%s may not be written to: nothing was recorded; check the rights of the file and its folder", path)
	case errors.Is(err, ErrFull):
		return fmt.Sprintf("the disk with %s is full: nothing was recorded; free some room and do it again", path)
	}
	return err.Error()
}
