package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/term"

	"bathside/internal/console"
	"bathside/internal/report"
	"bathside/internal/station"
)

// openConsole runs the console on st until the crew leaves it. The console
// finishes its own writes, also when ctx ends or the terminal hangs up.
func (a *app) openConsole(ctx context.Context, st *station.Station) error {
	o := a.consoleOptions()
	o.Station = st
	o.Demo = a.demoRuns
	return a.runConsole(ctx, o)
}

// openSetUpForm begins with the form for a station that does not exist yet.
func (a *app) openSetUpForm(ctx context.Context) error {
	so, err := a.options()
	if err != nil {
		return err
	}
	o := a.consoleOptions()
	o.Catalog = so.Catalog
	o.Create = func(first ...station.Draft) (*station.Station, error) {
		return station.Create(a.dataPath(), so, first...)
	}
	return a.runConsole(ctx, o)
}

func (a *app) consoleOptions() console.Options {
	o := console.Options{
		Handover: report.WriteHandoverIn,

		Now: a.now, Bath: a.flags.bath, As: a.flags.as, Zone: localZone(a.Getenv),
	}
	o.Glyphs, o.Letters = lookFor(a.Getenv("TERM"), localeOf(a.Getenv))
	if names := accountNames(); len(names) > 0 && strings.Contains(names[0], " ") {
		o.User = names[0] // a person's name, not an account
	}
	if a.Getenv("NO_COLOR") != "" || a.flags.color.when == "never" {
		o.Profile = colorprofile.ASCII
	}
	return o
}

func (a *app) runConsole(ctx context.Context, o console.Options) (err error) {
	if o.Guides, err = a.guides(); err != nil {
		return err
	}
	a.busy.Lock()
	defer a.busy.Unlock()
	if o.Station != nil {
		o.Catalog = o.Station.Catalog()
	}
	return console.Run(ctx, o)
}

// interactive reports whether somebody sits before the program who can be
// shown a console.
func (a *app) interactive() bool { return a.atTerminal() && !a.dumb() }

// atTerminal reports whether a console is wanted: there is a terminal, and
// nothing else was asked for.
func (a *app) atTerminal() bool {
	return !a.flags.plain && !a.flags.json && isTerminal(a.In) && isTerminal(a.Out)
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(f.Fd())
}

// openOrStatus is bathside without a command: the console, plain talk where that
// is asked for or the terminal can do no more, or else the status.
func (a *app) openOrStatus(ctx context.Context) error {
	if a.lineByLine() {
		a.sayNoConsole()
		err := a.withStation(func(st *station.Station) error { return a.talkOn(ctx, st) })
		if errors.Is(err, station.ErrNotExist) {
			return a.beginByTalk(ctx)
		}
		return err
	}
	if !a.interactive() {
		return a.withStation(func(st *station.Station) error { return a.writeStatus(a.text(), st) })
	}
	go console.Warm()
	err := a.withStation(func(st *station.Station) error { return a.openConsole(ctx, st) })
	if errors.Is(err, station.ErrNotExist) {
		return a.openSetUpForm(ctx)
	}
	return err
}

// beginByTalk sets a station up, and goes on with it.
func (a *app) beginByTalk(ctx context.Context) error {
	if made, err := a.setUpByTalk(ctx, new(newStation)); !made {
		return err
	}
	return a.withStation(func(st *station.Station) error { return a.talkOn(ctx, st) })
}

// lineByLine reports whether somebody is talked with in plain lines: they asked
// for it, or their terminal can do no more.
func (a *app) lineByLine() bool { return a.talks() || a.atTerminal() && a.dumb() }

// sayNoConsole tells somebody who sits at a terminal why there is no console.
func (a *app) sayNoConsole() {
	if a.atTerminal() && a.dumb() {
		fmt.Fprintf(a.aside(), "bathside: no console can be drawn on this terminal (TERM is %s), so this goes line by line; set TERM to the terminal's name for the console, or give --plain\n",
			quote(a.Getenv("TERM")))
	}
}
