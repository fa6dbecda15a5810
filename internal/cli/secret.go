package cli

import (
	"context"
	"fmt"
	"io"
	"os"

	"github.com/charmbracelet/x/term"

	"bathside/internal/station"
)

// What the environment may hand over.
const (
	pinName    = "BATHSIDE_PIN"
	newPINName = "BATHSIDE_NEW_PIN"
)

// secrets are PINs: of who acts, and one to be set.
type secrets struct{ PIN, New station.PIN }

// takeSecrets reads the PINs once and takes them out of the environment: what
// this program starts must not inherit them.
func (a *app) takeSecrets() {
	take := func(name string) station.PIN {
		given := station.PIN(a.Getenv(name))
		_ = os.Unsetenv(name) // it fails only for names that cannot be
		return given
	}
	a.secrets = secrets{PIN: take(pinName), New: take(newPINName)}
}

// mayAsk reports whether somebody sits before the program who can type a PIN.
func (a *app) mayAsk() bool {
	return !a.flags.json && !a.streams && isTerminal(a.In) && isTerminal(a.Err)
}

// askSecret asks for a PIN at the terminal, which shows nothing of it. Raw mode
// comes before the question, so that nobody types faster than that. An
// interrupt leaves the terminal as it was.
func (a *app) askSecret(ctx context.Context, prompt string) (station.PIN, error) {
	if err := a.clockStands(); err != nil {
		return "", err
	}
	in := a.In.(*os.File)
	before, err := term.MakeRaw(in.Fd())
	if err != nil {
		return "", fmt.Errorf("ask for a PIN: %w", err)
	}
	restore := func() { _ = term.Restore(in.Fd(), before) }
	defer restore()
	defer context.AfterFunc(ctx, restore)()
	fmt.Fprint(a.aside(), prompt, ": ")
	typed, err := readSecret(in)
	fmt.Fprint(a.Err, "\r\n")
	return station.PIN(typed), err
}

// readSecret reads what is typed up to enter. In raw mode ctrl+c is a key like
// any other.
func readSecret(in io.Reader) (string, error) {
	const ctrlC, ctrlD, backspace, del = 3, 4, 8, 127
	var typed []byte
	for key := make([]byte, 1); ; {
		if _, err := in.Read(key); err != nil {
			return "", fmt.Errorf("ask for a PIN: %w", err)
		}
		switch c := key[0]; {
		case c == ctrlC:
			return "", errInterrupted
		case c == '\r', c == '\n', c == ctrlD:
			return string(typed), nil
		case c == backspace, c == del:
			typed = typed[:max(0, len(typed)-1)]
		case c >= ' ':
			typed = append(typed, c)
		}
	}
}

// clockStands refuses a PIN together with --now.
func (a *app) clockStands() error {
	if a.flags.now.IsZero() {
		return nil
	}
	return refuse("now", "--now cannot be given with a PIN, since it would move the clock by which wrong tries lock it: leave --now out, and give the time it happened with --at")
}

// newPIN is the one that is to be set: that of the environment, else as typed
// twice at the terminal. It is checked before anything else is done.
func (a *app) newPIN(ctx context.Context, whose string) (station.PIN, error) {
	fresh := a.secrets.New
	if fresh == "" {
		var err error
		if fresh, err = a.askTwice(ctx, whose); err != nil {
			return "", err
		}
	} else if err := a.clockStands(); err != nil {
		return "", err
	}
	return fresh, fresh.Good()
}

func (a *app) askTwice(ctx context.Context, whose string) (station.PIN, error) {
	if !a.mayAsk() {
		return "", refuse("missing", "there is no new PIN for %s: type it at a terminal, or give it in $%s", whose, newPINName)
	}
	fresh, err := a.askSecret(ctx, "new PIN of "+whose)
	if err != nil {
		return "", err
	}
	again, err := a.askSecret(ctx, "the same again")
	if err == nil && again != fresh {
		err = refuse("input", "the two are not the same, and nothing was changed: do it again")
	}
	return fresh, err
}
