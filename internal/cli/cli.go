// Package cli is the command line: one file for each command, and the few
// rules that all of them keep. Every command comes in by package station and
// package advise; none computes a rule of its own.
//
// It is not the console: command bathside without a word only opens it. It
// asks no question either but for a PIN, which no flag may hold: others see it
// there. Whatever else a command needs is a flag. Only with --plain at a
// terminal it talks (plain.go); without a terminal nothing is asked and nothing
// but plain text is written.
package cli

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"runtime/debug"
	"slices"
	"sync"
	"syscall"
	"time"
	_ "time/tzdata" // Windows has no zones of its own
)

// Process is what the program gets from the system it runs on.
type Process struct {
	Args     []string // without the program's name
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	Now      func() time.Time
	Version  string
	State    string // folder where the trace is kept; "" keeps none
}

// app is one run of the program.
type app struct {
	Process
	flags   globals
	secrets secrets
	streams bool // standard input is for lines

	trace      *slog.Logger
	traceLevel slog.LevelVar
	ran        string // the command, by its words

	demoRuns bool // the console shows the made-up station

	// busy is held while something is written, and for as long as the console
	// is open: an interrupt waits for it.
	busy sync.Mutex
}

// Main runs the program and returns its exit code. Errors have been told by
// then.
func Main(p Process) int {
	a := &app{Process: p}
	a.openTrace()
	a.tameColor()
	a.takeSecrets()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// With somebody listening, writing to a pipe that was closed is an error
	// like any other instead of the end of the process.
	signal.Notify(make(chan os.Signal, 1), syscall.SIGPIPE)
	ignoreFileLimit()

	done := make(chan error, 1)
	go func() { done <- a.run(ctx) }()
	return a.tell(a.outcome(ctx, done))
}

// outcome waits for the command to end or for an interrupt. A command that
// heeds the interrupt gets a moment to leave nothing half made, and what is
// being written is finished in any case.
func (a *app) outcome(ctx context.Context, done <-chan error) error {
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	select {
	case err := <-done:
		if err == nil {
			return nil // it was done before the interrupt reached it
		}
	case <-time.After(200 * time.Millisecond):
	}
	a.busy.Lock()
	return errInterrupted
}

// run is the command with its panics caught: the exit code of a Go panic, 2,
// would read as an input that was refused.
func (a *app) run(ctx context.Context) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = &bug{fmt.Sprint(r), debug.Stack()}
		}
	}()
	root := a.root()
	root.SetArgs(a.Args)
	began := time.Now()
	cmd, err := root.ExecuteContextC(ctx)
	a.ran = cmd.CommandPath()
	a.trace.Debug("ran", "command", a.ran, "took", time.Since(began), "ok", err == nil)
	return a.plainFlagError(root, err)
}

// wantsJSON holds also where the flags could not be read to their end.
func (a *app) wantsJSON() bool {
	return a.flags.json || slices.Contains(a.Args, "--json")
}
