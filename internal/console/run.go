package console

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/catalog"
	"bathside/internal/chart"
	"bathside/internal/guide"
	"bathside/internal/plain"
	"bathside/internal/station"
)

// Options are what the console is started with.
type Options struct {
	Station *station.Station // nil: begin with set-up, then Create
	Ahead   *Ahead           // of the Station; nil: it is not being read yet
	Create  func(first ...station.Draft) (*station.Station, error)
	Catalog *catalog.Catalog
	Now     func() time.Time

	Bath   string // id of the bath to show first; "" is the first one
	As     string // who it is, where that was said on the command line
	Demo   bool   // say so in the strip
	Guides []guide.Guide

	// Handover writes the sheet that Log book shows; nil: it shows none.
	Handover WriteHandover

	User string // name suggested for the first gear officer
	Zone string // time zone suggested at set-up

	Profile colorprofile.Profile // forced colour depth; Unknown asks the terminal
	Glyphs  chart.Glyphs
	Letters plain.Letters // what the terminal can show; nil: everything
	Far     bool          // the terminal is far away: fewer frames, fewer bytes

	Trace   *slog.Logger    // what failed and, if it asks for that, what was done; nil: nowhere
	Context context.Context // ends the watch; Run sets it
	In      io.Reader       // nil: standard input
	Out     io.Writer       // nil: standard output
}

func (o Options) withDefaults() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Trace == nil {
		o.Trace = slog.New(slog.DiscardHandler)
	}
	if o.Context == nil {
		o.Context = context.Background()
	}
	return o
}

// Broke reports whether an error of Run says that the console ended by a
// mistake of its own.
func Broke(err error) bool { return errors.Is(err, tea.ErrProgramPanic) }

// warm builds the table of how wide letters are, which every screen needs. That
// takes half as long as reading a station, and may go on beside it.
func warm() { ansi.StringWidthWc("─") }

// Run shows the console until it is left, and closes the station: everything
// submitted is on disk when it returns, also after a hang-up.
func Run(ctx context.Context, o Options) error {
	// Garbage is collected first at 4 MB, which is in the middle of the first
	// screen and holds it up; with this at 8.
	defer debug.SetGCPercent(debug.SetGCPercent(200))

	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	o.Context = ctx
	m := New(o)
	go warm()
	p := tea.NewProgram(traced{m, m.o.Trace}, options(o)...)

	hangup := make(chan os.Signal, 1)
	signal.Notify(hangup, syscall.SIGHUP)
	defer signal.Stop(hangup)
	go func() {
		select {
		case <-hangup:
			p.Quit()
		case <-ctx.Done():
		}
	}()

	_, err := p.Run()
	cancel()
	return errors.Join(err, m.close())
}

func options(o Options) []tea.ProgramOption {
	var opts []tea.ProgramOption
	if o.In != nil {
		opts = append(opts, tea.WithInput(o.In))
	}
	if o.Out != nil {
		opts = append(opts, tea.WithOutput(o.Out))
	}
	if o.Profile != colorprofile.Unknown {
		opts = append(opts, tea.WithColorProfile(o.Profile))
	}
	if o.Far {
		opts = append(opts, tea.WithFPS(30))
	}
	return opts
}

// keyPress is a key by its name, as a binding spells it.
func keyPress(name string) tea.KeyPressMsg {
	named := map[string]rune{
		"enter": tea.KeyEnter, "esc": tea.KeyEscape, "tab": tea.KeyTab, "up": tea.KeyUp, "down": tea.KeyDown,
		"left": tea.KeyLeft, "right": tea.KeyRight, "home": tea.KeyHome, "end": tea.KeyEnd,
		"pgup": tea.KeyPgUp, "pgdown": tea.KeyPgDown, "backspace": tea.KeyBackspace, "f1": tea.KeyF1, "f6": tea.KeyF6,
	}
	if letter, ok := strings.CutPrefix(name, "ctrl+"); ok {
		return tea.KeyPressMsg{Code: []rune(letter)[0], Mod: tea.ModCtrl}
	}
	switch {
	case named[name] != 0:
		return tea.KeyPressMsg{Code: named[name]}
	case name == "shift+tab":
		return tea.KeyPressMsg{Code: tea.KeyTab, Mod: tea.ModShift}
	case name == "space":
		return tea.KeyPressMsg{Code: tea.KeySpace, Text: " "}
	}
	return tea.KeyPressMsg{Code: []rune(name)[0], Text: name}
}
