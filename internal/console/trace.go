package console

import (
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
)

// traced is the console with a trace of it: which messages came and how long
// they took, and where it broke. A key is traced as a key, never as which one.
type traced struct {
	tea.Model
	to *slog.Logger
}

func (t traced) Init() tea.Cmd {
	defer t.broke("init")
	return t.command(t.Model.Init())
}

func (t traced) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	defer t.broke("update")
	began := time.Now()
	m, cmd := t.Model.Update(msg)
	t.to.Debug("update", "message", fmt.Sprintf("%T", msg), "took", time.Since(began))
	return traced{m, t.to}, t.command(cmd)
}

// command is cmd, which runs beside everything else, with its panics kept.
func (t traced) command(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		defer t.broke("command")
		msg := cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			for i := range batch {
				batch[i] = t.command(batch[i])
			}
		}
		return msg
	}
}

func (t traced) View() tea.View {
	defer t.broke("view")
	began := time.Now()
	v := t.Model.View()
	t.to.Debug("view", "took", time.Since(began))
	return v
}

// broke keeps a panic, which the library then tells on a screen that is soon
// gone.
func (t traced) broke(in string) {
	if r := recover(); r != nil {
		t.to.Error("the console broke", "in", in, "because", fmt.Sprint(r), "stack", string(debug.Stack()))
		panic(r)
	}
}

// traceError keeps an error that is no refusal.
func (m *Model) traceError(err error) {
	if refusal := new(bath.Refusal); !errors.As(err, &refusal) {
		m.o.Trace.Error("told in the console", "because", err.Error())
	}
}
