package cli

import (
	"context"
	"errors"
	"os"

	"github.com/charmbracelet/x/term"

	"bathside/internal/station"
)

// errNoConsole stands in until package console is there.
var errNoConsole = errors.New("the console is not built yet: use bathside status and bathside log")

// openConsole runs the console on st until the crew leaves it. This is the one
// place where the console is wired in.
func (a *app) openConsole(ctx context.Context, st *station.Station) error {
	a.busy.Lock() // the console finishes its own writes when ctx ends
	defer a.busy.Unlock()
	return errNoConsole
}

// openSetUpForm runs the console's form for a station that does not exist yet.
func (a *app) openSetUpForm(ctx context.Context) error {
	return errNoConsole
}

// interactive reports whether somebody sits before the program who can be
// shown a console.
func (a *app) interactive() bool {
	return !a.flags.plain && !a.flags.json && isTerminal(a.In) && isTerminal(a.Out)
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(f.Fd())
}

// openOrStatus is bathside without a command.
func (a *app) openOrStatus(ctx context.Context) error {
	if !a.interactive() {
		return a.withStation(func(st *station.Station) error { return a.writeStatus(a.Out, st) })
	}
	err := a.withStation(func(st *station.Station) error { return a.openConsole(ctx, st) })
	if errors.Is(err, station.ErrNotExist) {
		return a.openSetUpForm(ctx)
	}
	return err
}
