package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"sync"

	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/term"

	"bathside/internal/console"
	"bathside/internal/guide"
	"bathside/internal/report"
	"bathside/internal/station"
)

// openConsole runs the console on st until the crew leaves it. The console
// finishes its own writes, also when ctx ends or the terminal hangs up.
func (a *app) openConsole(ctx context.Context, st *station.Station, guides guideReader) error {
	ahead := console.ReadAhead(st)
	o, err := a.consoleOptions()
	if err != nil {
		return err
	}
	o.Station, o.Ahead, o.Catalog = st, ahead, st.Catalog()
	o.Demo = a.demoRuns
	return a.runConsole(ctx, o, guides)
}

// guideReader is app.guides, or that begun before.
type guideReader func() ([]guide.Guide, error)

// openSetUpForm begins with the form for a station that does not exist yet.
func (a *app) openSetUpForm(ctx context.Context) error {
	so, err := a.options()
	if err != nil {
		return err
	}
	o, err := a.consoleOptions()
	if err != nil {
		return err
	}
	o.Catalog, o.User, o.Zone = so.Catalog, personName(), localZone(a.Getenv)
	o.Create = func(first ...station.Draft) (*station.Station, error) {
		return station.Create(a.dataPath(), so, first...)
	}
	return a.runConsole(ctx, o, a.guides)
}

func (a *app) consoleOptions() (console.Options, error) {
	glyphs, letters, err := a.looks()
	o := console.Options{
		Handover: report.WriteHandoverIn, Now: a.now, Bath: a.flags.bath, As: a.flags.as, Trace: a.trace,
		Glyphs: glyphs, Letters: letters, Far: a.Getenv("SSH_CONNECTION") != "",
	}
	if a.Getenv("NO_COLOR") != "" || a.flags.color.when == "never" {
		o.Profile = colorprofile.ASCII
	}
	return o, err
}

func (a *app) runConsole(ctx context.Context, o console.Options, guides guideReader) (err error) {
	if o.Guides, err = guides(); err != nil {
		return err
	}
	a.busy.Lock()
	defer a.busy.Unlock()
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
	guides := sync.OnceValues(a.guides)
	go func() { _, _ = guides() }() // beside the station; its error comes when they are asked for
	err := a.withStation(func(st *station.Station) error { return a.openConsole(ctx, st, guides) })
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
