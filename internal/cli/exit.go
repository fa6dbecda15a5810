package cli

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"syscall"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/console"
	"bathside/internal/station"
	"bathside/internal/units"
)

// kind is what sort of thing went wrong; scripts read it with --json.
type kind string

const (
	kindFailed      kind = "failed"
	kindUsage       kind = "usage"
	kindRefused     kind = "refused"
	kindInUse       kind = "in-use"
	kindDamaged     kind = "damaged"
	kindInterrupted kind = "interrupted"
)

// exitCode is the one place that knows the exit codes.
func (k kind) exitCode() int {
	switch k {
	case kindUsage, kindRefused:
		return 2
	case kindInUse:
		return 3
	case kindDamaged:
		return 4
	case kindInterrupted:
		return 130
	}
	return 1
}

// fault is an error as it is told: a sentence for people, a kind and an id for
// scripts.
type fault struct {
	Kind kind   `json:"kind"`
	ID   string `json:"id"`
	Say  string `json:"say"`

	Findings []string `json:"findings,omitzero"` // of verify
	Line     uint64   `json:"line,omitzero"`     // where verify --against finds that two records part
}

func (f *fault) Error() string { return f.Say }

func usage(id, format string, args ...any) error {
	return &fault{Kind: kindUsage, ID: id, Say: fmt.Sprintf(format, args...)}
}

func refuse(id, format string, args ...any) error {
	return &fault{Kind: kindRefused, ID: id, Say: fmt.Sprintf(format, args...)}
}

var errInterrupted = &fault{Kind: kindInterrupted, ID: "interrupted", Say: "stopped; what was recorded before is kept"}

// bug is a panic of ours.
type bug struct {
	what  string
	stack []byte
}

func (b *bug) Error() string {
	return fmt.Sprintf("this is a mistake in bathside, and nothing is lost: %s", b.what)
}

// tell writes err for whoever called, and returns the exit code.
func (a *app) tell(err error) int {
	if err == nil || pipeClosed(err) {
		return 0
	}
	if said := new(verdict); errors.As(err, &said) {
		return said.code
	}
	f := a.faultOf(err)
	a.traceFault(f, err)
	fmt.Fprintln(a.aside(), "bathside:", f.Say)
	if b := new(bug); errors.As(err, &b) {
		fmt.Fprintf(a.aside(), "\n%s", b.stack)
	}
	if a.wantsJSON() {
		_ = a.printJSON(map[string]*fault{"error": f}) // nobody left to tell
	}
	return f.Kind.exitCode()
}

// faultOf turns any error into a sentence that says what to do.
func (a *app) faultOf(err error) *fault {
	var (
		ready    *fault
		refusal  *bath.Refusal
		unknown  *catalog.UnknownError
		excluded *catalog.ExcludedError
		input    *units.Error
	)
	switch {
	case errors.As(err, &ready):
		return ready
	case errors.As(err, &refusal):
		return &fault{Kind: kindRefused, ID: refusal.ID, Say: oneLine(err)}
	case errors.As(err, &unknown), errors.As(err, &excluded):
		return &fault{Kind: kindRefused, ID: "item", Say: oneLine(err)}
	case errors.As(err, &input):
		return &fault{Kind: kindRefused, ID: "input", Say: oneLine(err)}
	case errors.Is(err, advise.ErrNothingToDecide):
		return &fault{Kind: kindRefused, ID: "no-fill", Say: oneLine(err)}
	case console.Broke(err):
		return &fault{Kind: kindFailed, ID: "broke", Say: "the console ended by a mistake in bathside: what was saved is kept, start it again; bathside paths says where the trace is that tells why"}
	case errors.Is(err, context.Canceled):
		return errInterrupted
	}
	return a.storeFault(err)
}

// storeFault speaks of the station file. What the store said in detail is
// left out where the crew can do nothing with it.
func (a *app) storeFault(err error) *fault {
	path := a.dataPath()
	for _, s := range []struct {
		is   error
		kind kind
		id   string
		say  string
	}{
		{station.ErrUnsure, kindFailed, "unsure", "the disk of %s failed as the last line was sealed: look with bathside export whether it is there before you log it again"},
		{station.ErrReplaced, kindFailed, "replaced", "another log book, or an older copy, was put at %s: nothing was written; look with bathside status, then try again"},
		{station.ErrInUse, kindInUse, "in-use", "%s is in use by another program: wait for it or close it, then try again"},
		{station.ErrGone, kindFailed, "gone", "%s was taken away while it was in use and nothing was written: put it back or restore a backup, then try again"},
		{station.ErrNotExist, kindUsage, "no-station", "there is no station at %s: make one with bathside setup --station NAME --tank 64gal, or name another file with --data"},
		{station.ErrNoPlace, kindRefused, "no-place", "no file can be at %s: part of that name is no folder, is too long, or leads in a circle; name another file with --data"},
		{station.ErrExists, kindRefused, "exists", "%s is there already and stays as it is: name another file"},
		{station.ErrNotOurs, kindRefused, "not-ours", "%s is not a station file: name another one with --data"},
		{station.ErrNewer, kindRefused, "newer", "%s was written by a newer bathside: nothing was changed; install that version here"},
		{station.ErrDamaged, kindFailed, "damaged", "%s is damaged and was left as it is: run bathside verify to see where, and go on with a copy"},
		{station.ErrReadOnly, kindFailed, "read-only", "%s cannot be written by this account: change its permissions, or use status and export only"},
		{station.ErrUnreadable, kindFailed, "unreadable", "%s cannot be read by this account: change the permissions of the file or its folder, or ask who owns it"},
		{station.ErrDisk, kindFailed, "disk", "the disk of %s fails and nothing was written: copy the file to another disk, and have this one looked at"},
		{station.ErrFull, kindFailed, "full", "the disk of %s is full and nothing was written: make room, then try again"},
	} {
		if errors.Is(err, s.is) {
			return &fault{Kind: s.kind, ID: s.id, Say: fmt.Sprintf(s.say, path)}
		}
	}
	return &fault{Kind: kindFailed, ID: "failed", Say: oneLine(err)}
}

// oneLine keeps an error that joins several to one sentence on one line.
func oneLine(err error) string {
	return strings.Join(strings.FieldsFunc(err.Error(), func(r rune) bool { return r == '\n' }), "; ")
}

// windowsNoData is ERROR_NO_DATA (System Error Codes, Win32 API): the reader
// of a pipe has gone.
const windowsNoData = syscall.Errno(232)

// pipeClosed reports that whoever read our output has enough, as head does.
func pipeClosed(err error) bool {
	return errors.Is(err, syscall.EPIPE) || runtime.GOOS == "windows" && errors.Is(err, windowsNoData)
}
