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
	}
	for _, f := range fileFaults {
		if errors.Is(err, f.is) {
			return fmt.Sprintf(f.say, path)
		}
	}
	return err.Error()
}

// fileFaults is what is said of the file. Where an error is several of them,
// the first one counts.
var fileFaults = []struct {
	is  error
	say string
}{
	{ErrUnsure, "the disk with %s failed as the line was sealed: look whether it is in the log book before you record it again"},
	{ErrReplaced, "another log book, or an older copy, was put at %s: nothing was recorded; look at what it says now, then record it again"},
	{ErrInUse, "the log book %s is being used by another program: wait a moment and do it again"},
	{ErrGone, "the log book %s was taken away while it was in use: nothing was recorded; put it back or restore a backup, then do it again"},
	{ErrNotExist, "there is no station at %s: run bathside setup, or name its file with --data"},
	{ErrNoPlace, "no station can be at %s: part of that name is no folder, is too long, or leads in a circle; name another file with --data"},
	{ErrExists, "there is a station at %s already: nothing was changed; name another file with --data"},
	{ErrNotOurs, "%s is not a Bathside log book: nothing was changed; name another file with --data"},
	{ErrNewer, "%s was written by a newer Bathside: nothing was changed; install that version here"},
	{ErrDamaged, "%s is damaged: nothing was changed; keep the file, run bathside verify, and restore a backup"},
	{ErrReadOnly, "%s may not be written to: nothing was recorded; check the rights of the file and its folder"},
	{ErrUnreadable, "%s may not be read by this account: nothing was changed; check the rights of the file and its folder"},
	{ErrFull, "the disk with %s is full: nothing was recorded; free some room and do it again"},
	{ErrDisk, "the disk with %s fails: nothing was recorded; write it on paper, copy the file to another disk, and have the disk looked at"},
}
