package console

import (
	"io"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
)

// counted is a terminal that counts what is written to it.
type counted struct {
	*vt.SafeEmulator
	mu sync.Mutex
	n  int
}

func (c *counted) Write(p []byte) (int, error) {
	c.mu.Lock()
	c.n += len(p)
	c.mu.Unlock()
	return c.SafeEmulator.Write(p)
}

func (c *counted) count() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.n
}

// TestWholeProgram runs the console in a bubble of fake time: a reading is
// recorded, its good news goes by itself, a tick of the clock costs next to
// nothing, and quitting leaves cleanly.
func TestWholeProgram(t *testing.T) {
	c := &clock{start}
	st := newStation(t, c)
	tended(t, c, st)
	if err := st.Close(); err != nil {
		t.Fatal(err)
	}
	path := st.Path()
	begun := c.t
	synctest.Test(t, func(t *testing.T) {
		epoch := time.Now()
		now := func() time.Time { return begun.Add(time.Since(epoch)) }
		st := reopen(t, path, now)
		term := &counted{SafeEmulator: vt.NewSafeEmulator(100, 30)}
		if _, err := term.WriteString("\x1b[20h"); err != nil { // new-line mode: without a terminal at its input Bubble Tea takes \n as \r\n
			t.Fatal(err)
		}
		m := New(Options{Station: st, Catalog: st.Catalog(), Now: now, Profile: colorprofile.TrueColor, Context: unwatched()})
		p := tea.NewProgram(m, tea.WithInput(term), tea.WithOutput(term), tea.WithWindowSize(100, 30),
			tea.WithEnvironment([]string{"TERM=xterm-256color", "COLORTERM=truecolor"}), tea.WithoutSignalHandler())
		done := make(chan error, 1)
		go func() { _, err := p.Run(); done <- err }()
		settle := func() string {
			time.Sleep(200 * time.Millisecond) // fake: lets the frame ticker fire
			synctest.Wait()
			return ansi.Strip(term.Render())
		}
		wants := func(words string) {
			t.Helper()
			if s := settle(); !strings.Contains(s, words) {
				t.Fatalf("the screen lacks %q:\n%s", words, s)
			}
		}
		wants("Take the weekly pH")
		term.SendText("p998\r121\ra")
		wants("Saved: line 23")
		time.Sleep(6 * time.Second)
		if s := settle(); strings.Contains(s, "Saved") {
			t.Fatalf("good news stayed:\n%s", s)
		}
		before := term.count()
		time.Sleep(time.Minute) // sixty ticks, and one new minute
		settle()
		cost := term.count() - before
		t.Logf("a minute of ticks: %d bytes at 100x30", cost)
		if cost > 40 {
			t.Errorf("a minute of ticks wrote %d bytes, want at most 40", cost)
		}
		term.SendText("q")
		if err := <-done; err != nil {
			t.Fatal(err)
		}
		if err := term.InputPipe().(io.Closer).Close(); err != nil { // term.Close races with Read in x/vt v0.1.0
			t.Fatal(err)
		}
		if err := st.Close(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Minute) // fake: pending ticks end, or the bubble reports them as leaked
	})
}
