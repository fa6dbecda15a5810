package cli

import (
	"errors"
	"log/slog"
	"os"
	"path/filepath"

	"gopkg.in/natefinch/lumberjack.v2"
)

// The trace is what the program has to say of itself to whoever mends it: what
// failed and why, and with --debug each thing that it did. It has nothing to do
// with the log book: it names files, and holds no PIN, no key and no line.

const (
	traceName = "bathside/trace.log"
	traceMB   = 1 // then it goes on in a new file; the one before is kept
)

// tracePath is where the trace is kept; "" keeps none.
func (a *app) tracePath() string {
	if a.State == "" {
		return ""
	}
	return filepath.Join(a.State, filepath.FromSlash(traceName))
}

// openTrace makes ready to write the trace. The file is made by the first thing
// that is written.
func (a *app) openTrace() {
	a.traceLevel.Set(slog.LevelWarn)
	a.trace = slog.New(slog.DiscardHandler)
	if path := a.tracePath(); path != "" {
		file := &lumberjack.Logger{Filename: path, MaxSize: traceMB, MaxBackups: 1}
		a.trace = slog.New(slog.NewTextHandler(file, &slog.HandlerOptions{Level: &a.traceLevel})).With("version", a.Version, "pid", os.Getpid())
	}
}

// traceFault keeps what went wrong by no fault of whoever typed.
func (a *app) traceFault(f *fault, err error) {
	if f.Kind != kindFailed && f.Kind != kindDamaged {
		return
	}
	words := []any{"command", a.ran, "id", f.ID, "because", err.Error()}
	if b := new(bug); errors.As(err, &b) {
		words = append(words, "stack", string(b.stack))
	}
	a.trace.Error(f.Say, words...)
}
